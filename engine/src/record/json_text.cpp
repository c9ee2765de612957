#include "record/json_text.h"

namespace engine {

namespace {

constexpr std::size_t largest_text = 16 * 1024 * 1024;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view white_space = " \t\r\n";

Error whole_text_error(const char* code, std::string message, std::string_view source) {
  Error error{code, std::move(message), {}, {}};
  error.place.source = source;
  return error;
}

}  // namespace

simdjson::dom::parser& parser_of_this_thread() {
  thread_local simdjson::dom::parser parser(largest_text + 1);
  return parser;
}

Result<simdjson::dom::element> parse_json(std::string_view text, std::string_view source,
                                          simdjson::dom::parser& parser) {
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) text.remove_prefix(byte_order_mark.size());
  if (text.find_first_not_of(white_space) == std::string_view::npos) {
    Error error = whole_text_error("empty_text", "there is no record: the text is empty", source);
    error.help = "a record is a JSON object with `exam` in it";
    return error;
  }
  if (text.size() > largest_text) {
    return whole_text_error("text_too_large",
                            "the text has " + std::to_string(text.size()) + " bytes: at most " +
                                std::to_string(largest_text) + " are read for one record",
                            source);
  }
  simdjson::dom::element root;
  if (parser.parse(text.data(), text.size()).get(root) != simdjson::SUCCESS) return broken_json(text, source);
  return root;
}

}  // namespace engine
