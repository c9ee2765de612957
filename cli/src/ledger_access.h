// How commands come to the ledger: which file, who acts, by which clock, and what its faults mean to the
// caller.

#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "command.h"
#include "failure.h"
#include "guidelines.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/protocol.h"
#include "ledger/rulesets.h"

namespace cli {

struct LedgerOptions : GuidelineOptions {
  std::string actor;  ///< `--actor`, else DUEWARD_ACTOR, else the login name.
};

/// `--ledger`, and `--today`: every command of the ledger has a clock.
void add_reading_options(CLI::App& command, LedgerOptions& options);
/// Those and `--actor`.
void add_writing_options(CLI::App& command, LedgerOptions& options);
/// Those of writing and those that name guidelines: for commands that give advice.
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
/// Who the entries name, and the account of the operating system that decides what may be done. `clock` must
/// outlive it.
ledger::Author author_of(const LedgerOptions& options, const ledger::Clock& clock);
/// The name that the operating system knows the caller by.
std::string account_of_caller();

/// The file that was named. Fails as wrong usage when none was.
std::string ledger_path(const CommonOptions& options);
/// Says on standard error when its tables were made anew, and for writing, when the machine's clock is behind it.
ledger::Ledger open_ledger(const CommonOptions& options, ledger::Ledger::Access access);
/// For commands that may begin a ledger; says so on standard error when they do.
ledger::Ledger open_or_begin_ledger(const CommonOptions& options);

/// What is to be said when the last entry was written more than a minute after what the machine's clock shows;
/// else nothing. Entries keep the instant that the clock shows: their order is by number.
std::optional<std::string> clock_is_behind(const ledger::Ledger& ledger);
/// The same on standard error.
void say_when_behind(const ledger::Ledger& ledger);

/// The rulesets that are named, or those of the protocol; empty when nothing is named. Fails as wrong usage
/// when the protocol asks for settings or an end of the window that `terms`, those in force, do not have.
ledger::Protocol named_protocol(const GuidelineOptions& options, const ledger::ProtocolTerms& terms = {});

/// The rulesets in force: those named, or those of the named protocol; else those of the protocol that a
/// consultant adopted in the ledger and that is in force on the day of the options, from the ledger's own
/// bytes; else those that the ledger has answered with before, in their edition of now; else the only current
/// one of the folder. Fails as wrong usage when that leaves a choice.
ledger::Protocol protocol_of(const LedgerOptions& options, const ledger::Ledger& ledger);

/// What an error of the ledger module means to the caller.
ExitCode code_of(const engine::Errors& errors);

/// The value, or the end of the command with what code_of says.
template <class T>
T from_ledger(engine::Result<T> result) {
  if (!result) throw Failure{code_of(result.errors()), result.errors()};
  return std::move(*result);
}

}  // namespace cli
