#include "canonical/canonical_element.h"

#include <algorithm>
#include <vector>

#include "canonical/canonical_parts.h"
#include "engine/canonical.h"

namespace engine {

namespace {

using simdjson::dom::element;
using simdjson::dom::element_type;

struct Member {
  std::string_view key;
  element value;
};

class Writer {
 public:
  explicit Writer(std::string& out) : out_(out) {}

  void value(element item) {
    switch (item.type()) {
      case element_type::OBJECT:
        return object(item.get_object().value_unsafe());
      case element_type::ARRAY:
        return array(item.get_array().value_unsafe());
      case element_type::STRING:
        return append_json_string(out_, item.get_string().value_unsafe());
      case element_type::INT64:
        return append_json_number(out_, item.get_int64().value_unsafe());
      case element_type::UINT64:
        return append_json_number(out_, item.get_uint64().value_unsafe());
      case element_type::DOUBLE:
        return append_json_number(out_, item.get_double().value_unsafe());
      case element_type::BOOL:
        out_ += item.get_bool().value_unsafe() ? "true" : "false";
        return;
      case element_type::NULL_VALUE:
        out_ += "null";
        return;
    }
  }

 private:
  void object(simdjson::dom::object object) {
    const std::size_t begin = members_.size();
    for (const auto [key, item] : object) members_.push_back({key, item});
    const std::size_t end = members_.size();
    std::sort(members_.begin() + static_cast<std::ptrdiff_t>(begin), members_.end(),
              [](const Member& a, const Member& b) { return key_before(a.key, b.key); });
    out_ += '{';
    for (std::size_t i = begin; i < end; ++i) {
      if (i > begin) out_ += ',';
      const Member member = members_[i];  // a copy: nested objects may move the vector
      append_json_string(out_, member.key);
      out_ += ':';
      value(member.value);
    }
    out_ += '}';
    members_.resize(begin);
  }

  void array(simdjson::dom::array array) {
    out_ += '[';
    bool first = true;
    for (const element item : array) {
      if (!first) out_ += ',';
      first = false;
      value(item);
    }
    out_ += ']';
  }

  std::string& out_;
  std::vector<Member> members_;  // of all objects that are open, the innermost last
};

}  // namespace

void append_canonical(std::string& out, element value) {
  Writer(out).value(value);
}

}  // namespace engine
