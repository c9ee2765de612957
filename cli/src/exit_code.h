// Every exit code of the program and what it means.

#pragma once

namespace cli {

enum class ExitCode : int {
  done = 0,
  needs_a_person =
      1,  ///< Done, and something needs a person: a record was refused, a case failed, a chain is broken.
  wrong_usage = 2,  ///< The command line is not understood; nothing was done.
  unreadable_input =
      3,             ///< A file, ruleset or standard input cannot be read, or an output cannot be written.
  ledger_fault = 4,  ///< The ledger cannot be opened, read or written.
};

}  // namespace cli
