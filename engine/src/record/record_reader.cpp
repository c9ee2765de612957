// The text of a record to a Record: parse, read the keys, look for contradictions, take the digest.

#include <vector>

#include "canonical/canonical_element.h"
#include "engine/canonical.h"
#include "engine/record.h"
#include "record/contradictions.h"
#include "record/faults.h"
#include "record/field_reader.h"
#include "record/json_text.h"

namespace engine {

namespace {

using simdjson::dom::element;

/// The record itself: what stands under `given`, or the whole text when there is none. Beside `given` stand
/// the caller's own keys; a key that stands twice is a fault even there.
element record_in(element root, const Path& path, FieldReader& reader) {
  simdjson::dom::object top;
  if (root.get_object().get(top) != simdjson::SUCCESS) return root;
  element given;
  bool found = false;
  std::vector<std::string_view> seen;
  for (const auto [key, value] : top) {
    if (key != "given" && key != "id") continue;
    if (position_of(key, seen)) reader.duplicate_key(key, path.member(key));
    seen.push_back(key);
    if (key == "given") {
      given = value;
      found = true;
    }
  }
  return found ? given : root;
}

std::string canonical_of(element record, std::size_t expected_size) {
  std::string out;
  out.reserve(expected_size);
  append_canonical(out, record);
  return out;
}

}  // namespace

Result<Record> read_record(std::string_view text, std::string_view source) {
  auto root = parse_json(text, source, parser_of_this_thread());
  if (!root) return root.errors();
  Faults faults(source);
  FieldReader reader(faults);
  const Path path;
  const element given = record_in(*root, path, reader);
  Record record;
  const bool is_object = reader.object<Record>(given, path, record);
  if (is_object) find_contradictions(record, faults);
  if (!faults.empty()) return faults.take();
  record.canonical = canonical_of(given, text.size());
  record.digest = digest_text(record.canonical);
  return record;
}

std::string caller_id(std::string_view text) {
  const auto root = parse_json(text, {}, parser_of_this_thread());
  element id;
  if (!root || root->at_key("id").get(id) != simdjson::SUCCESS) return {};
  std::string_view words;
  if (id.get_string().get(words) == simdjson::SUCCESS) return std::string(words);
  if (id.is_int64() || id.is_uint64()) return canonical_of(id, 20);
  return {};
}

}  // namespace engine
