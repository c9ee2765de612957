#include "export_format.h"

#include <openssl/evp.h>

#include <algorithm>
#include <limits>
#include <optional>

#include <nlohmann/json.hpp>

#include "digest_text.h"
#include "json_fields.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

constexpr std::string_view format_name = "dueward export";

void append_member(std::string& out, const char* name, std::string_view text) {
  out += name;
  engine::append_json_string(out, text);
}

std::string base64_of(std::string_view bytes) {
  std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');  // and the zero that OpenSSL puts behind it
  EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()),
                  reinterpret_cast<const unsigned char*>(bytes.data()), static_cast<int>(bytes.size()));
  text.pop_back();
  return text;
}

/// Nothing when `text` is no base64. Forms that would be written differently are seen by the caller.
std::optional<std::string> bytes_of(const std::string& text) {
  std::string bytes(3 * (text.size() / 4) + 3, '\0');
  const int size =
      EVP_DecodeBlock(reinterpret_cast<unsigned char*>(bytes.data()),
                      reinterpret_cast<const unsigned char*>(text.data()), static_cast<int>(text.size()));
  if (size < 0) return std::nullopt;
  const auto padding = static_cast<std::size_t>(std::count(text.begin(), text.end(), '='));
  bytes.resize(static_cast<std::size_t>(size) - std::min(padding, static_cast<std::size_t>(size)));
  return bytes;
}

Error no_line(std::string message) {
  return {"not_an_export_line",
          std::move(message),
          {},
          "the export was altered or cut, or is not one: take another copy of it, or export again"};
}

/// Where both lines begin to differ, a few characters of each.
Error differs(std::string_view read, std::string_view expected) {
  constexpr std::size_t shown = 60;
  const auto [at, other] = std::mismatch(read.begin(), read.end(), expected.begin(), expected.end());
  const auto offset = static_cast<std::size_t>(at - read.begin());
  const auto piece = [&](std::string_view text) { return std::string(text.substr(offset, shown)); };
  return no_line("the line is not in the one form of an export: from byte " + std::to_string(offset + 1) +
                 " on `" + piece(read) + "` was read and `" + piece(expected) + "` expected");
}

engine::Digest digest_at(const json& object, const char* key) {
  const std::string text = object.at(key).get<std::string>();
  const auto digest = digest_of(text);
  if (!digest)
    throw std::invalid_argument("`" + std::string(key) + "` is `" + text +
                                "`, expected `sha256:` and 64 hexadecimal digits");
  return *digest;
}

KeptDocument document_from(const json& object) {
  KeptDocument document{object.at("document").get<std::string>(), {}};
  if (object.contains("text")) {
    document.bytes = object.at("text").get<std::string>();
  } else {
    auto bytes = bytes_of(object.at("base64").get<std::string>());
    if (!bytes) throw std::invalid_argument("`base64` is no base64");
    document.bytes = std::move(*bytes);
  }
  return document;
}

Entry entry_from(const json& object) {
  const auto text = [&](const char* key) { return object.at(key).get<std::string>(); };
  return {object.at("sequence").get<std::uint64_t>(),
          text("at"),
          text("actor"),
          text("kind"),
          text("subject"),
          engine::canonical_json(object.at("body")),
          digest_at(object, "previous"),
          digest_at(object, "hash")};
}

EndOfExport end_from(const json& object) {
  return {object.at("documents").get<std::uint64_t>(),
          {object.at("size").get<std::uint64_t>(), digest_at(object, "head")}};
}

ExportLine line_from(const json& object) {
  if (object.contains("document")) return document_from(object);
  if (object.contains("sequence")) return entry_from(object);
  if (object.contains("size")) return end_from(object);
  throw std::invalid_argument("expected an entry, a document or the end of the export");
}

}  // namespace

std::string header_line() {
  std::string line;
  append_member(line, "{\"format\":", format_name);
  return line + ",\"version\":" + std::to_string(export_version) + "}\n";
}

std::string line_of(const KeptDocument& document) {
  const bool is_text = is_utf8(document.bytes);
  std::string line;
  line.reserve(document.bytes.size() + document.bytes.size() / 3 + 128);
  if (is_text) {
    append_member(line, "{\"document\":", document.digest);
    append_member(line, ",\"text\":", document.bytes);
  } else {
    append_member(line, "{\"base64\":", base64_of(document.bytes));
    append_member(line, ",\"document\":", document.digest);
  }
  return line + "}\n";
}

std::string line_of(const Entry& entry) {
  std::string line;
  line.reserve(entry.body.size() + entry.subject.size() + entry.actor.size() + 320);
  append_member(line, "{\"actor\":", entry.actor);
  append_member(line, ",\"at\":", entry.at);
  line += ",\"body\":" + entry.body;
  append_member(line, ",\"hash\":", text_of(entry.hash));
  append_member(line, ",\"kind\":", entry.kind);
  append_member(line, ",\"previous\":", text_of(entry.previous));
  line += ",\"sequence\":" + std::to_string(entry.sequence);
  append_member(line, ",\"subject\":", entry.subject);
  return line + "}\n";
}

std::string line_of(const EndOfExport& end) {
  std::string line = "{\"documents\":" + std::to_string(end.documents);
  append_member(line, ",\"head\":", text_of(end.checkpoint.head));
  return line + ",\"size\":" + std::to_string(end.checkpoint.size) + "}\n";
}

Result<ExportLine> read_export_line(std::string_view line) {
  if (!line.ends_with('\n'))
    return no_line("the line ends without a line feed, in the middle of what was written");
  const json object = json::parse(line, nullptr, false);
  if (object.is_discarded() || !object.is_object()) return no_line("the line is no JSON object");
  try {
    ExportLine read = line_from(object);
    const std::string expected = std::visit([](const auto& part) { return line_of(part); }, read);
    if (line != expected) return differs(line, expected);
    return read;
  } catch (const json::exception& fault) {
    return no_line(std::string("the line lacks something: ") + fault.what());
  } catch (const std::invalid_argument& fault) {
    return no_line(fault.what());
  }
}

Result<Done> read_header_line(std::string_view line) {
  if (line == header_line()) return Done{};
  const json object = json::parse(line, nullptr, false);
  const bool is_export = object.is_object() && object.contains("format") && object["format"] == format_name;
  if (is_export && object.contains("version") && object["version"] != export_version) {
    return Error{"newer_export",
                 "the export is of version " + engine::canonical_json(object["version"]) +
                     "; this program knows version " + std::to_string(export_version),
                 {},
                 "use the version of the program that wrote it, or a later one"};
  }
  if (is_export) return differs(line, header_line());
  return Error{"not_an_export",
               "the file is not an export of a ledger",
               {},
               "an export begins with `" + header_line().substr(0, header_line().size() - 1) +
                   "`; `dueward export` writes one"};
}

}  // namespace ledger
