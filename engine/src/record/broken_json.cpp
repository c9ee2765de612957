// Where and why a text is not JSON. Only run on texts that simdjson refused, which says neither.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>

#include "record/json_text.h"
#include "text/printable.h"

namespace engine {

namespace {

/// A fault at a byte of the text.
struct Fault {
  std::size_t offset = 0;
  std::size_t length = 1;
  std::string message;
};

/// Builds nothing: keeps the first fault only.
class Inspector : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit Inspector(std::string_view text) : text_(text) {}

  const Fault& fault() const { return fault_; }

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(std::int64_t) override { return true; }
  bool number_unsigned(std::uint64_t) override { return true; }
  // Also called for whole numbers that no integer holds: simdjson reads those as numbers only when they have
  // a point or an exponent.
  bool number_float(double, const std::string& digits) override {
    return digits.find_first_of(".eE") != std::string::npos || too_large(digits);
  }
  bool string(std::string&) override { return true; }
  bool binary(nlohmann::json::binary_t&) override { return true; }
  bool start_object(std::size_t) override { return deeper(); }
  bool key(std::string&) override { return true; }
  bool end_object() override { return shallower(); }
  bool start_array(std::size_t) override { return deeper(); }
  bool end_array() override { return shallower(); }

  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::json::exception& why) override {
    if (why.id == 406) return too_large(token);  // a number beyond the largest double
    fault_.offset = position > 0 ? position - 1 : 0;
    fault_.message = "this is not JSON: " + reason(why.what());
    return false;
  }

 private:
  bool too_large(const std::string& digits) {
    fault_.offset = std::min(text_.find(digits), text_.size());
    fault_.length = digits.size();
    fault_.message = "the number `" + printable(digits, 40) + "` is too large to be read";
    return false;
  }

  bool deeper() {
    if (++depth_ <= simdjson::DEFAULT_MAX_DEPTH - 1) return true;
    fault_.message = "the text is nested more than " + std::to_string(depth_ - 1) + " levels deep";
    return false;
  }
  bool shallower() {
    --depth_;
    return true;
  }

  // "...; last read: 'X'; expected Y": the excerpt shows X better.
  static std::string without_last_read(std::string_view what) {
    const std::size_t begin = what.find("; last read: '");
    if (begin == std::string_view::npos) return std::string(what);
    const std::size_t expected = what.rfind("'; expected ");
    std::string out(what.substr(0, begin));
    if (expected != std::string_view::npos && expected > begin) out += what.substr(expected + 1);
    return out;
  }

  // The library's text is "[json.exception...] parse error at line 1, column 5: syntax error while parsing
  // value - X".
  static std::string reason(std::string_view what) {
    for (const std::string_view lead : {"column ", ": ", " - "}) {
      const std::size_t at = what.find(lead);
      if (at != std::string_view::npos) what.remove_prefix(at + lead.size());
    }
    std::string out = printable(without_last_read(what), 200);
    std::replace(out.begin(), out.end(), '\'', '`');
    return out;
  }

  std::string_view text_;
  Fault fault_;
  std::size_t depth_ = 0;
};

Place place_of(const Fault& fault, std::string_view text, std::string_view source) {
  const std::size_t offset = std::min(fault.offset, text.size());
  const std::string_view before = text.substr(0, offset);
  const std::size_t line_start = before.find_last_of('\n') + 1;  // npos + 1 is 0
  const std::size_t line_end = std::min(text.find('\n', offset), text.size());
  std::string_view line = text.substr(line_start, line_end - line_start);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  Place place;
  place.source = source;
  place.line = static_cast<std::uint32_t>(std::count(before.begin(), before.end(), '\n')) + 1;
  place.column =
      static_cast<std::uint32_t>(count_code_points(text.substr(line_start, offset - line_start))) + 1;
  place.length = static_cast<std::uint32_t>(fault.length);
  place.excerpt = printable(line);
  return place;
}

}  // namespace

Error broken_json(std::string_view text, std::string_view source) {
  Inspector inspector(text);
  nlohmann::json::sax_parse(text.begin(), text.end(), &inspector);
  Fault fault = inspector.fault();
  if (fault.message.empty()) fault.message = "this is not JSON that can be read";
  return {"not_json", fault.message, place_of(fault, text, source), {}};
}

}  // namespace engine
