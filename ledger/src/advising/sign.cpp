#include "ledger/signing.h"

#include "advising/advise.h"
#include "advising/plan.h"
#include "database/protocols.h"
#include "database/store.h"
#include "json_fields.h"
#include "ledger/lists.h"

namespace ledger {

using engine::Action;
using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

/// The examination, and the advice that stands for it.
struct Case {
  KnownExamination examination;
  json advice;  ///< Body of its `advice given` entry.
  json chosen;  ///< The answer that counts.
};

Error fault(std::string code, std::string message, std::string help) {
  return {std::move(code), std::move(message), {}, std::move(help)};
}

Result<Case> find_case(Transaction& transaction, const std::string& exam, std::uint64_t advice) {
  const auto examination = find_examination(transaction, exam);
  if (!examination) {
    return fault("unknown_exam", "no examination `" + exam + "` is on the ledger",
                 "record it first; `patient` lists the examinations of a person");
  }
  if (advice != 0 && examination->advice != advice) {
    return fault(
        "advice_replaced",
        "advice " + std::to_string(advice) + " is not the one that stands for examination `" + exam + "`",
        "look at advice " + std::to_string(examination->advice.value()) + " and sign that");
  }
  Case found{*examination, transaction.body(examination->advice.value()), {}};
  found.chosen = found.advice.at("answers").at(found.advice.at("chosen").get<std::size_t>());
  return found;
}

std::optional<engine::Window> window_of(const json& due) {
  if (!due.is_object()) return std::nullopt;
  return engine::Window{engine::parse_date(text_at(due, "from")).value(),
                        engine::parse_date(text_at(due, "to")).value()};
}

json json_of(const std::optional<engine::Window>& due) {
  if (!due) return {};
  return {{"from", engine::text_of(due->from)}, {"to", engine::text_of(due->to)}};
}

std::string first_rule(const json& answer) {
  const auto reasons = answer.find("reasons");
  return reasons == answer.end() || reasons->empty() ? std::string() : text_at(reasons->front(), "rule");
}

std::string ruleset_id(const json& answer) {
  const auto ruleset = answer.find("ruleset");
  return ruleset == answer.end() || !ruleset->is_object() ? std::string() : text_at(*ruleset, "id");
}

Result<Done> may_be_signed(const Case& found) {
  const std::string& exam = found.examination.exam;
  if (!found.examination.outcome.empty()) {
    return fault("already_signed",
                 "the advice for examination `" + exam + "` is " + found.examination.outcome + " already",
                 "decide otherwise with `override`");
  }
  const std::string state = found.examination.advice_state;
  const std::string action = text_at(found.chosen, "action");
  if (state != "settled" || action == "individualise") {
    return fault("advice_not_settled",
                 "the advice for examination `" + exam + "` is `" + (state == "settled" ? action : state) +
                     "`; only a settled next step can be signed",
                 "answer its questions with a corrected record, or decide yourself with `override`");
  }
  if (opens_recall(engine::action_of(action).value()) && !found.chosen.at("due").is_object()) {
    return fault("advice_not_settled", "the advice for examination `" + exam + "` gives no date",
                 "decide on one with `override`");
  }
  return Done{};
}

Result<Done> may_be_decided(const Decision& decision) {
  const std::string action(engine::text_of(decision.action));
  if (decision.reason.empty()) {
    return fault("reason_missing", "a decision other than the advice needs a reason",
                 "say why, in a sentence");
  }
  if (decision.action == Action::await_pathology || decision.action == Action::individualise) {
    return fault("not_a_decision", "`" + action + "` decides nothing",
                 "name a colonoscopy, a site check, a repeat examination, a referral or a stop");
  }
  if (opens_recall(decision.action) && !decision.due) {
    return fault("date_missing", "`" + action + "` needs a due date",
                 "say from when, and until when if that differs");
  }
  if (!opens_recall(decision.action) && decision.due) {
    return fault("date_not_wanted", "`" + action + "` has no due date",
                 "leave the date out, or choose another action");
  }
  if (decision.due && decision.due->to < decision.due->from) {
    return fault("bad_window", "the due window ends before it begins", "give the earlier date first");
  }
  return Done{};
}

Result<Done> may_act(const std::string& clinician) {
  if (!clinician.empty()) return Done{};
  return fault("clinician_missing", "no clinician is named", "name who decides; it is kept with the entry");
}

/// The rules may have changed between the answer and the signature.
void note_other_rules(Transaction& transaction, const Author& author, const Case& found, Signed& done) {
  const auto protocol = protocol_on(transaction.connection(), author.clock.today());
  if (!protocol) return;
  std::vector<std::string> digests;
  for (const AdoptedRuleset& ruleset : protocol->rulesets) digests.push_back(ruleset.digest);
  if (are_answers_of(found.advice.at("answers"), digests)) return;
  done.notes.push_back("answered by other rulesets than those in force since " +
                       engine::text_of(protocol->from) + ": `advice again` asks those");
}

Signed carried(const KnownExamination& examination, std::uint64_t entry, Carried done) {
  return {examination.exam, examination.person, entry, std::move(done.recall), std::move(done.notes)};
}

std::int64_t risk_for(const Case& found, Action action) {
  if (action == Action::site_check) return static_cast<std::int64_t>(Risk::site_check);
  return found.advice.at("risk_without_site_check").get<std::int64_t>();
}

/// The plan of a computed answer.
Plan plan_of(const Case& found, const std::string& clinician) {
  const Action action = engine::action_of(text_at(found.chosen, "action")).value();
  return {found.examination.advice.value(),
          action,
          window_of(found.chosen.at("due")),
          ruleset_id(found.chosen),
          first_rule(found.chosen),
          clinician,
          risk_for(found, action),
          0,
          found.chosen.value("then", json::array()),
          found.chosen.value("counted_from", json())};
}

Signed sign(Transaction& transaction, const Author& author, const Case& found, const std::string& clinician) {
  const KnownExamination& examination = found.examination;
  Plan plan = plan_of(found, clinician);
  plan.signature = transaction.append(author, Kind::advice_signed, "examination:" + examination.exam,
                                      {{"person", examination.person},
                                       {"exam", examination.exam},
                                       {"advice", plan.advice},
                                       {"clinician", clinician},
                                       {"on", engine::text_of(author.clock.today())},
                                       {"action", std::string(engine::text_of(plan.action))},
                                       {"due", json_of(plan.due)},
                                       {"ruleset", plan.ruleset},
                                       {"rule", plan.rule},
                                       {"then", plan.later_steps}});
  return carried(examination, plan.signature, carry_out(transaction, author, examination, plan));
}

Signed decide(Transaction& transaction, const Author& author, const Case& found, const std::string& clinician,
              const Decision& decision) {
  const KnownExamination& examination = found.examination;
  Plan plan = {examination.advice.value(),
               decision.action,
               decision.due,
               ruleset_id(found.chosen),
               "",
               clinician,
               risk_for(found, decision.action),
               0,
               json::array(),
               {}};
  plan.signature = transaction.append(author, Kind::advice_overridden, "examination:" + examination.exam,
                                      {{"person", examination.person},
                                       {"exam", examination.exam},
                                       {"advice", plan.advice},
                                       {"clinician", clinician},
                                       {"on", engine::text_of(author.clock.today())},
                                       {"action", std::string(engine::text_of(decision.action))},
                                       {"due", json_of(decision.due)},
                                       {"reason", decision.reason},
                                       {"computed", found.chosen}});
  return carried(examination, plan.signature, carry_out(transaction, author, examination, plan));
}

SignedInBatch refused(engine::Errors errors) {
  return {SignedInBatch::What::refused, {}, std::move(errors)};
}

SignedInBatch sign_seen(Transaction& transaction, const Author& author, const SeenAdvice& seen,
                        const std::string& clinician) {
  if (seen.advice == 0) {
    return refused({fault("advice_not_named", "no advice is named for examination `" + seen.exam + "`",
                          "name the entry that was looked at, as `to-sign` lists it under `advice`")});
  }
  const auto found = find_case(transaction, seen.exam, seen.advice);
  if (!found) return refused(found.errors());
  if (found->examination.outcome == "signed") return {SignedInBatch::What::signed_before, {}, {}};
  if (auto may = may_be_signed(*found); !may) return refused(may.errors());
  return {SignedInBatch::What::signed_now, sign(transaction, author, *found, clinician), {}};
}

}  // namespace

Result<Signed> sign(Ledger& ledger, const Author& author, const std::string& exam,
                    const std::string& clinician, std::uint64_t advice) {
  if (auto may = may_act(clinician); !may) return may.errors();
  Signed done;
  const auto written = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto found = find_case(transaction, exam, advice);
    if (!found) return found.errors();
    if (auto may = may_be_signed(*found); !may) return may;
    done = sign(transaction, author, *found, clinician);
    note_other_rules(transaction, author, *found, done);
    return Done{};
  });
  if (!written) return written.errors();
  return done;
}

Result<std::vector<SignedInBatch>> sign_batch(Ledger& ledger, const Author& author,
                                              const std::string& clinician,
                                              const std::vector<SeenAdvice>& batch) {
  if (auto may = may_act(clinician); !may) return may.errors();
  std::vector<SignedInBatch> done(batch.size());
  const auto written = ledger.store().write_each(
      batch.size(), author.clock, [&](Transaction& transaction, std::size_t i) -> Result<Done> {
        done[i] = sign_seen(transaction, author, batch[i], clinician);
        return Done{};
      });
  if (!written) return written.errors();
  return done;
}

Result<Signed> override_advice(Ledger& ledger, const Author& author, const std::string& exam,
                               const std::string& clinician, const Decision& decision, std::uint64_t advice) {
  if (auto may = may_act(clinician); !may) return may.errors();
  if (auto may = may_be_decided(decision); !may) return may.errors();
  Signed done;
  const auto written = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto found = find_case(transaction, exam, advice);
    if (!found) return found.errors();
    done = decide(transaction, author, *found, clinician, decision);
    return Done{};
  });
  if (!written) return written.errors();
  return done;
}

}  // namespace ledger
