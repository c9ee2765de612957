#include "reception/result_format.h"

#include <algorithm>
#include <set>

#include "engine/calendar.h"
#include "places.h"

namespace ledger {

using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

/// Collects faults while it reads.
class Reader {
 public:
  Result<ResultReport> read(const json& root);
  void fault(std::string code, std::string message, const std::string& path, std::string help = "") {
    errors_.push_back({std::move(code), std::move(message), at_path(path), std::move(help)});
  }
  const Errors& errors() const { return errors_; }

 private:
  bool is_object(const json& value, const std::string& path, const std::vector<std::string_view>& keys);
  std::string words(const json& object, const char* key, const std::string& path, bool needed);
  std::string date(const json& object, const char* key);
  void one_of(const std::string& a, const char* name_a, const std::string& b, const char* name_b,
              const std::string& path);
  const json* list(const json& object, const char* key, const std::string& path);
  PotReport pot(const json& value, const std::string& path);
  LesionReport lesion(const json& value, const std::string& path);
  json histology(const json& object, const std::string& path);

  Errors errors_;
};

std::string below(const std::string& path, const char* key) {
  return path.empty() ? key : path + "." + key;
}

std::string item(const std::string& path, std::size_t index) {
  return path + "[" + std::to_string(index) + "]";
}

bool Reader::is_object(const json& value, const std::string& path,
                       const std::vector<std::string_view>& keys) {
  if (!value.is_object()) {
    fault("wrong_type",
          "expected an object, read `" + value.dump(-1, ' ', false, json::error_handler_t::replace) + "`",
          path);
    return false;
  }
  for (const auto& [key, unused] : value.items()) {
    if (std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
    const std::string near = engine::nearest(key, keys);
    std::string help = near.empty() ? "expected" : "did you mean `" + near + "`? Expected";
    for (std::size_t i = 0; i < keys.size(); ++i)
      help += (i == 0 ? " `" : ", `") + std::string(keys[i]) + "`";
    fault("unknown_key", "unknown key `" + key + "`", below(path, key.c_str()), help);
  }
  return true;
}

std::string Reader::words(const json& object, const char* key, const std::string& path, bool needed) {
  const auto found = object.find(key);
  if (found == object.end() || found->is_null()) {
    if (needed) fault("missing_key", std::string("`") + key + "` is missing", below(path, key));
    return {};
  }
  if (!found->is_string() || found->get_ref<const std::string&>().empty()) {
    fault("wrong_type", std::string("expected text for `") + key + "`", below(path, key));
    return {};
  }
  return found->get<std::string>();
}

std::string Reader::date(const json& object, const char* key) {
  std::string text = words(object, key, "", true);
  if (!text.empty() && !engine::parse_date(text)) {
    fault("bad_date", "`" + text + "` is not a date", key, "write it as `2026-03-15`");
  }
  return text;
}

void Reader::one_of(const std::string& a, const char* name_a, const std::string& b, const char* name_b,
                    const std::string& path) {
  const std::string both = std::string("`") + name_a + "` or `" + name_b + "`";
  if (a.empty() && b.empty()) fault("missing_key", "expected " + both, path);
  if (!a.empty() && !b.empty()) fault("too_many_keys", "expected either " + both + ", not both", path);
}

const json* Reader::list(const json& object, const char* key, const std::string& path) {
  const auto found = object.find(key);
  if (found != object.end() && found->is_array() && !found->empty()) return &*found;
  fault("missing_key", std::string("expected a list of at least one in `") + key + "`", below(path, key));
  return nullptr;
}

json Reader::histology(const json& object, const std::string& path) {
  const auto found = object.find("histology");
  if (found != object.end() && found->is_object()) return *found;
  fault("missing_key", "expected an object in `histology`", below(path, "histology"),
        R"(as in {"type":"tubular adenoma","dysplasia":"low grade","margin":"clear"})");
  return {};
}

LesionReport Reader::lesion(const json& value, const std::string& path) {
  if (!is_object(value, path, {"id", "histology"})) return {};
  return {words(value, "id", path, true), histology(value, path), path};
}

PotReport Reader::pot(const json& value, const std::string& path) {
  if (!is_object(value, path, {"id", "accession", "lesions", "histology"})) return {};
  PotReport report{words(value, "id", path, false), words(value, "accession", path, false), {}, path};
  one_of(report.id, "id", report.accession, "accession", path);
  if (value.contains("histology")) {
    if (value.contains("lesions"))
      fault("too_many_keys", "expected either `lesions` or `histology`, not both", path);
    report.lesions.push_back({"", histology(value, path), path});
  } else if (const json* lesions = list(value, "lesions", path)) {
    const std::string lesions_path = below(path, "lesions");
    for (std::size_t i = 0; i < lesions->size(); ++i) {
      report.lesions.push_back(lesion((*lesions)[i], item(lesions_path, i)));
    }
  }
  return report;
}

Result<ResultReport> Reader::read(const json& root) {
  if (!is_object(root, "", {"exam", "accession", "specimens", "reported", "reporter"})) return errors_;
  ResultReport report;
  report.exam = words(root, "exam", "", false);
  report.accession = words(root, "accession", "", false);
  one_of(report.exam, "exam", report.accession, "accession", "");
  report.reported = date(root, "reported");
  report.reporter = words(root, "reporter", "", false);
  if (const json* pots = list(root, "specimens", "")) {
    for (std::size_t i = 0; i < pots->size(); ++i)
      report.pots.push_back(pot((*pots)[i], item("specimens", i)));
  }
  if (!errors_.empty()) return errors_;
  return report;
}

/// JSON in which no object has the same key twice: a parser would silently take one of them.
json parse(std::string_view text, Reader& reader) {
  std::vector<std::set<std::string>> open;
  const auto watch = [&](int, json::parse_event_t event, json& value) {
    if (event == json::parse_event_t::object_start) open.emplace_back();
    if (event == json::parse_event_t::object_end) open.pop_back();
    if (event == json::parse_event_t::key && !open.back().insert(value.get<std::string>()).second) {
      reader.fault("duplicate_key", "key `" + value.get<std::string>() + "` stands twice in one object", "");
    }
    return true;
  };
  return json::parse(text.begin(), text.end(), watch, false);
}

}  // namespace

Result<ResultReport> read_result(std::string_view text) {
  Reader reader;
  const json root = parse(text, reader);
  if (root.is_discarded()) {
    return engine::Error{
        "broken_json", "the text is not JSON", {}, "expected one object, as docs/result-format.md shows"};
  }
  if (!reader.errors().empty()) return reader.errors();
  return reader.read(root);
}

}  // namespace ledger
