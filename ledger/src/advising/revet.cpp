#include "ledger/revet.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>
#include <tuple>

#include "advising/advise.h"
#include "advising/plan.h"
#include "database/revet_cases.h"
#include "database/view.h"
#include "json_fields.h"
#include "late_clock.h"
#include "ledger/choice.h"

namespace ledger {

using engine::Action;
using engine::AdviceState;
using engine::Date;
using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

bool is_stop(const std::string& action) {
  return action == engine::text_of(Action::no_surveillance) ||
         action == engine::text_of(Action::return_to_screening);
}

Shift shift_of(const RevetLine& line) {
  const auto action = engine::action_of(line.new_action);
  if (line.new_state != engine::text_of(AdviceState::settled) || !action) return Shift::other;
  if (is_stop(line.action)) {
    if (is_stop(line.new_action)) return line.action == line.new_action ? Shift::unchanged : Shift::other;
    return opens_recall(*action) ? Shift::starts : Shift::other;
  }
  if (is_stop(line.new_action)) return Shift::stops;
  if (!line.due || !line.new_due) return Shift::other;
  if (*line.new_due != *line.due) return *line.new_due < *line.due ? Shift::sooner : Shift::later;
  return line.action == line.new_action ? Shift::unchanged : Shift::other;
}

/// The new answer, put beside the one that stands.
RevetLine line_of(const RevetCase& given, const json& chosen, const engine::Advice& answer) {
  RevetLine line;
  line.exam = given.exam;
  line.risk = static_cast<Risk>(given.risk);
  if (given.recall != 0) line.recall = "R" + std::to_string(given.recall);
  line.action = given.recall == 0 ? text_at(chosen, "action") : given.action;
  line.ruleset = given.recall == 0 ? text_at(chosen.at("ruleset"), "id") : given.ruleset;
  line.rule = given.recall == 0 ? text_at(chosen.at("reasons").at(0), "rule") : given.rule;
  line.due = engine::parse_date(given.due);
  line.new_state = engine::text_of(answer.state);
  if (answer.action) line.new_action = engine::text_of(*answer.action);
  if (answer.due) line.new_due = answer.due->from;
  line.new_ruleset = answer.ruleset;
  if (!answer.reasons.empty()) {
    line.new_rule = answer.reasons.front().rule;
    line.because = answer.reasons.front().because;
  }
  if (line.due && line.new_due) line.days = days_between(*line.due, *line.new_due);
  return line;
}

/// A later step of a plan stays when the whole plan does.
Shift shift_of_later_step(const json& chosen, const engine::Advice& answer) {
  const json now = json::parse(engine::json_of(answer));
  for (const char* key : {"state", "action", "interval", "then"}) {
    if (now.at(key) != chosen.at(key)) return Shift::other;
  }
  return Shift::unchanged;
}

class Revetting {
 public:
  Revetting(const Ledger& ledger, const Protocol& to, const Date& today)
      : ledger_(ledger), to_(to), today_(today), cases_(ledger) {}

  Result<Revetted> run(std::uint32_t threads) {
    std::vector<std::thread> running;
    for (std::uint32_t i = 0; i < std::max<std::uint32_t>(1, threads); ++i)
      running.emplace_back([this] { note(work()); });
    for (std::thread& thread : running) thread.join();
    if (!errors_.empty()) return errors_;
    return std::move(found_);
  }

 private:
  void note(const Result<Done>& done) {
    if (done) return;
    const std::lock_guard lock(mutex_);
    stopped_ = true;
    if (errors_.empty()) errors_ = done.errors();
  }

  Result<Done> work() {
    auto reader = Ledger::open(ledger_.path(), Ledger::Access::read);
    if (!reader) return reader.errors();
    Advisers advisers(to_);
    while (!stopped_) {
      auto cases = next();
      if (!cases) return cases.errors();
      if (cases->empty()) return Done{};
      if (auto done = advise(*reader, advisers, *cases); !done) return done;
    }
    return Done{};
  }

  Result<std::vector<RevetCase>> next() {
    const std::lock_guard lock(mutex_);
    return cases_.next();
  }

  Result<Done> advise(const Ledger& reader, Advisers& advisers, const std::vector<RevetCase>& cases) {
    Revetted some;
    const auto done = reader.store().read([&](Transaction& transaction) -> Result<Done> {
      for (const RevetCase& given : cases) advise(transaction.connection(), advisers, given, some);
      return Done{};
    });
    if (!done) return done;
    const std::lock_guard lock(mutex_);
    for (std::size_t i = 0; i < some.counts.size(); ++i) found_.counts.at(i) += some.counts.at(i);
    std::move(some.moved.begin(), some.moved.end(), std::back_inserter(found_.moved));
    return Done{};
  }

  void advise(Connection& connection, Advisers& advisers, const RevetCase& given, Revetted& some) {
    const StoredAdvice stored = stored_advice(connection, given.advice);
    const json chosen = json::parse(stored.chosen);
    if (given.recall == 0 && !is_stop(text_at(chosen, "action"))) return;  // referred: no rule closed it
    const auto record = engine::read_record(stored.record, given.exam);
    const auto answers = record ? advisers.advise(*record, today_, given.exam)
                                : std::vector{engine::refused(given.exam, record.errors())};
    const engine::Advice& answer = answers[choose(answers).chosen];
    RevetLine line = line_of(given, chosen, answer);
    line.shift = given.later_step ? shift_of_later_step(chosen, answer) : shift_of(line);
    ++some.counts.at(static_cast<std::size_t>(line.shift));
    if (line.shift == Shift::unchanged) return;
    some.moved.push_back(std::move(line));
  }

  const Ledger& ledger_;
  const Protocol& to_;
  const Date today_;
  std::mutex mutex_;  // guards what follows
  RevetCases cases_;
  Revetted found_;
  engine::Errors errors_;
  std::atomic<bool> stopped_ = false;
};

}  // namespace

std::string_view text_of(Shift shift) {
  constexpr std::array<std::string_view, 6> texts = {"starts", "sooner", "other",
                                                     "later",  "stops",  "unchanged"};
  return texts.at(static_cast<std::size_t>(shift));
}

std::uint64_t Revetted::read() const {
  std::uint64_t all = 0;
  for (const std::uint64_t some : counts) all += some;
  return all;
}

Result<Revetted> revet(const Ledger& ledger, const Protocol& to, const Date& today, std::uint32_t threads) {
  if (to.empty()) return engine::Error{"no_ruleset", "no ruleset is named", {}, "name the new rulesets"};
  auto found = Revetting(ledger, to, today).run(threads);
  if (!found) return found;
  // Whatever thread found it: the order of the answer does not depend on that.
  std::sort(found->moved.begin(), found->moved.end(), [](const RevetLine& a, const RevetLine& b) {
    const Date never{9999, 12, 31};
    const auto key = [&](const RevetLine& line) {
      return std::tuple(line.shift, line.risk, line.new_due.value_or(never), std::string_view(line.exam),
                        std::string_view(line.recall));
    };
    return key(a) < key(b);
  });
  return found;
}

}  // namespace ledger
