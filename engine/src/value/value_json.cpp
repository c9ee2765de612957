// JSON to FEEL values. Read event by event, so that a key that stands twice is seen and a number is taken
// from its digits, never from a double.

#include <nlohmann/json.hpp>
#include <set>

#include "engine/model.h"
#include "record/json_text.h"

namespace engine {

namespace {

class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit Builder(Arena& arena) : arena_(arena) {}

  const Value& value() const { return root_; }
  std::optional<Error>& error() { return error_; }

  bool null() override { return add(Value()); }
  bool boolean(bool b) override { return add(Value::of(b)); }
  bool number_integer(std::int64_t number) override { return decimal(std::to_string(number)); }
  bool number_unsigned(std::uint64_t number) override { return decimal(std::to_string(number)); }
  bool number_float(double, const std::string& digits) override { return decimal(digits); }
  bool string(std::string& text) override { return add(Value::string(text, arena_)); }
  bool binary(nlohmann::json::binary_t&) override { return false; }  // JSON text has none
  bool start_object(std::size_t) override { return open(true); }
  bool start_array(std::size_t) override { return open(false); }

  bool key(std::string& key) override {
    if (!open_.back().known.insert(key).second) {
      Error error{"duplicate_key", "the key `" + key + "` stands twice in one object", {}, {}};
      error.place.path = path_of(key);
      error_ = std::move(error);
      return false;
    }
    open_.back().keys.push_back(arena_.keep(key));
    return true;
  }

  bool end_object() override {
    const Open done = std::move(open_.back());
    open_.pop_back();
    const std::span<const std::string_view> keys = arena_.keep(std::span<const std::string_view>(done.keys));
    const std::span<const Value> values = arena_.keep(std::span<const Value>(done.values));
    return add(make_context(keys, values, arena_));
  }

  bool end_array() override {
    const Open done = std::move(open_.back());
    open_.pop_back();
    return add(Value::list(arena_.keep(std::span<const Value>(done.values))));
  }

  // Said again, with its place in the text, by broken_json().
  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) override {
    return false;
  }

 private:
  /// An object or array whose end has not been read.
  struct Open {
    bool is_object = false;
    std::vector<std::string_view> keys;
    std::set<std::string, std::less<>> known;
    std::vector<Value> values;
  };

  bool open(bool is_object) {
    open_.emplace_back().is_object = is_object;
    return open_.size() < simdjson::DEFAULT_MAX_DEPTH;
  }

  bool decimal(const std::string& digits) {
    const std::optional<Decimal> number = Decimal::parse(digits);
    return number && add(Value::number(*number, arena_));
  }

  bool add(const Value& value) {
    if (open_.empty()) {
      root_ = value;
    } else {
      open_.back().values.push_back(value);
    }
    return true;
  }

  // `exam.lesions[1].size_mm`, for a key of the innermost object.
  std::string path_of(const std::string& key) const {
    std::string text;
    for (const Open& part : open_) {
      if (!part.is_object) {
        text.append("[").append(std::to_string(part.values.size())).append("]");
        continue;
      }
      if (!text.empty()) text += '.';
      text += &part == &open_.back() ? std::string_view(key) : part.keys.back();
    }
    return text;
  }

  Arena& arena_;
  Value root_;
  std::vector<Open> open_;
  std::optional<Error> error_;
};

}  // namespace

Result<Value> value_from_json(std::string_view json, Arena& arena) {
  Builder builder(arena);
  if (nlohmann::json::sax_parse(json.begin(), json.end(), &builder)) return builder.value();
  if (builder.error()) return std::move(*builder.error());
  return broken_json(json, {});
}

}  // namespace engine
