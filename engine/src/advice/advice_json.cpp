// Advice as one line of JSON in the form of RFC 8785, written in one pass: every object's keys stand here in
// their sorted order, and there are no numbers.

#include <algorithm>
#include <utility>

#include "canonical/canonical_parts.h"
#include "engine/advice.h"
#include "engine/canonical.h"

namespace engine {

namespace {

class Writer {
 public:
  void text(std::string_view value) { append_json_string(out, value); }
  /// Empty text is null.
  void text_or_null(std::string_view value) {
    if (value.empty()) {
      out += "null";
    } else {
      text(value);
    }
  }
  void key(std::string_view name) {
    if (out.back() != '{') out += ',';
    text(name);
    out += ':';
  }
  void member(std::string_view name, std::string_view value) {
    key(name);
    text(value);
  }

  void strings(const std::vector<std::string>& values) {
    list(values, [this](const std::string& value) { text(value); });
  }

  template <class Item, class Write>
  void list(const std::vector<Item>& items, Write&& write) {
    out += '[';
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (i > 0) out += ',';
      write(items[i]);
    }
    out += ']';
  }

  void interval(const std::optional<Interval>& value) {
    if (!value) {
      out += "null";
      return;
    }
    out += '{';
    member("from", text_of(value->from));
    member("to", text_of(value->to));
    out += '}';
  }

  void window(const std::optional<Window>& value) {
    if (!value) {
      out += "null";
      return;
    }
    out += '{';
    member("from", text_of(value->from));
    member("to", text_of(value->to));
    out += '}';
  }

  void write(const Error& error) {
    out += '{';
    member("code", error.code);
    member("help", error.help);
    member("message", error.message);
    member("path", error.place.path);
    out += '}';
  }

  void write(const Flag& flag) {
    out += '{';
    member("because", flag.because);
    member("flag", flag.flag);
    member("rule", flag.rule);
    out += '}';
  }

  void write(const Possibility& possible) {
    out += '{';
    member("action", text_of(possible.action));
    key("due");
    window(possible.due);
    key("interval");
    interval(possible.interval);
    member("rule", possible.rule);
    key("when");
    strings(possible.when);
    out += '}';
  }

  void write(const Question& question) {
    out += '{';
    member("fact", question.fact);
    member("why", question.why);
    out += '}';
  }

  void write(const Reason& reason) {
    out += '{';
    member("because", reason.because);
    member("evidence", reason.evidence);
    member("rule", reason.rule);
    member("source", reason.source);
    out += '}';
  }

  void write(const LaterStep& step) {
    out += '{';
    member("action", text_of(step.action));
    member("because", step.because);
    key("counted_from");
    text_or_null(step.counted_from);
    key("interval");
    interval(step.interval);
    member("rule", step.rule);
    out += '}';
  }

  template <class Item>
  void list_member(std::string_view name, const std::vector<Item>& items) {
    key(name);
    list(items, [this](const Item& item) { write(item); });
  }

  void counted_from(const Advice& advice) {
    if (!advice.counted_from_date) {
      out += "null";
      return;
    }
    out += '{';
    member("date", text_of(*advice.counted_from_date));
    member("what", advice.counted_from);
    out += '}';
  }

  void facts(const Advice& advice) {
    using Entry = std::pair<std::string, std::string>;
    std::vector<const Entry*> sorted;
    for (const Entry& fact : advice.facts) sorted.push_back(&fact);
    std::sort(sorted.begin(), sorted.end(),
              [](const Entry* a, const Entry* b) { return key_before(a->first, b->first); });
    out += '{';
    for (const Entry* fact : sorted) member(fact->first, fact->second);
    out += '}';
  }

  void ruleset(const Advice& advice) {
    if (advice.ruleset.empty()) {
      out += "null";
      return;
    }
    out += '{';
    member("digest", advice.ruleset_digest);
    member("edition", advice.edition);
    member("id", advice.ruleset);
    out += '}';
  }

  void advice(const Advice& advice) {
    out += '{';
    key("action");
    text_or_null(advice.action ? text_of(*advice.action) : std::string_view());
    if (advice.state == AdviceState::outside) member("ask_instead", advice.ask_instead);
    key("assumed");
    strings(advice.assumed);
    key("cautions");
    strings(advice.cautions);
    if (!advice.changes.empty()) list_member("changes", advice.changes);
    key("counted_from");
    counted_from(advice);
    key("due");
    window(advice.due);
    if (advice.state == AdviceState::refused) list_member("errors", advice.errors);
    key("facts");
    facts(advice);
    list_member("flags", advice.flags);
    key("id");
    text_or_null(advice.id);
    key("interval");
    interval(advice.interval);
    list_member("possible", advice.possible);
    list_member("questions", advice.questions);
    list_member("reasons", advice.reasons);
    key("record");
    text_or_null(advice.record_digest);
    key("ruleset");
    ruleset(advice);
    member("state", text_of(advice.state));
    list_member("then", advice.then);
    out += '}';
  }

  std::string out;
};

}  // namespace

std::string json_of(const Advice& advice) {
  Writer writer;
  writer.out.reserve(2048);
  writer.advice(advice);
  return std::move(writer.out);
}

}  // namespace engine
