// How commands come to the ledger: which file, who acts, by which clock, and what its faults mean to the
// caller.

#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "command.h"
#include "failure.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/rulesets.h"

namespace cli {

struct LedgerOptions : CommonOptions {
  std::string actor;                     ///< `--actor`, else DUEWARD_ACTOR, else the login name.
  std::vector<std::string> ruleset_ids;  ///< `--ruleset`, else DUEWARD_RULESET.
};

/// `--ledger`, and `--today`: every command of the ledger has a clock.
void add_reading_options(CLI::App& command, LedgerOptions& options);
/// Those and `--actor`.
void add_writing_options(CLI::App& command, LedgerOptions& options);
/// Those of writing, `--ruleset` and `--rulesets`: for commands that give advice.
void add_advising_options(CLI::App& command, LedgerOptions& options);

/// The machine's clock, with another day when `--today` names one.
class UnitClock : public ledger::Clock {
 public:
  explicit UnitClock(std::optional<engine::Date> today) : today_(today) {}
  ledger::Instant now() const override;
  engine::Date today() const override;

 private:
  std::optional<engine::Date> today_;
};

UnitClock clock_of(const CommonOptions& options);
std::string actor_of(const LedgerOptions& options);

/// The file that was named. Fails as wrong usage when none was.
std::string ledger_path(const CommonOptions& options);
ledger::Ledger open_ledger(const CommonOptions& options, ledger::Ledger::Access access);
/// For commands that may begin a ledger; says so on standard error when they do.
ledger::Ledger open_or_begin_ledger(const CommonOptions& options);

/// The rulesets in force: those named; else those that the ledger has answered with before, in their edition
/// of now; else the only current one of the folder. Fails as wrong usage when that leaves a choice.
ledger::Protocol protocol_of(const LedgerOptions& options, const ledger::Ledger& ledger);

/// What an error of the ledger means: its own faults are ledger faults, all others wrong usage.
ExitCode code_of(const engine::Errors& errors);

/// The value, or the end of the command with what code_of says.
template <class T>
T from_ledger(engine::Result<T> result) {
  if (!result) throw Failure{code_of(result.errors()), result.errors()};
  return std::move(*result);
}

}  // namespace cli
