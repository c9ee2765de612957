// dueward accounts: which account of the operating system is whose, and what its holder may do.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger/accounts.h"
#include "ledger_access.h"
#include "report/layout.h"

namespace cli {

namespace {

struct AccountOptions : LedgerOptions {
  std::string account, name, role, reason;
};

ExitCode list(const AccountOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const auto accounts = from_ledger(ledger::accounts(ledger));
  Columns columns({"account", "role", "name"});
  for (const ledger::Account& account : accounts) {
    const std::string role(ledger::text_of(account.role));
    if (options.json) {
      std::cout << engine::canonical_json(
                       {{"account", account.account}, {"name", account.name}, {"role", role}})
                << '\n';
    }
    columns.add({account.account, role, account.name});
  }
  if (options.json) return ExitCode::done;
  if (accounts.empty()) {
    std::cout << "no account is named: whoever can open the file may do everything\n";
  } else {
    std::cout << columns.text();
  }
  return ExitCode::done;
}

ExitCode name(const AccountOptions& options) {
  const auto role = ledger::role_of(options.role);
  if (!role) {
    fail(ExitCode::wrong_usage, {"unknown_role",
                                 "--role: there is no role `" + options.role + "`",
                                 {},
                                 "`administrator`, `consultant` or `auditor`"});
  }
  ledger::Ledger ledger = open_or_begin_ledger(options);
  const bool is_first = from_ledger(ledger::accounts(ledger)).empty();
  const UnitClock clock = clock_of(options);
  from_ledger(ledger::name_account(ledger, author_of(options, clock), {options.account, options.name, *role},
                                   options.reason));
  std::cout << options.account << ": " << options.name << ", " << options.role << '\n';
  if (is_first)
    std::cout << "from now on only named accounts write, and only consultants sign and name accounts\n";
  return ExitCode::done;
}

ExitCode withdraw(const AccountOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  from_ledger(ledger::withdraw_account(ledger, author_of(options, clock), options.account, options.reason));
  std::cout << options.account << ": withdrawn\n";
  return ExitCode::done;
}

std::shared_ptr<AccountOptions> add_change(CLI::App& command) {
  const auto options = std::make_shared<AccountOptions>();
  command.add_option("account", options->account, "As the operating system names it")
      ->required()
      ->type_name("ACCOUNT");
  command.add_option("--reason", options->reason, "Why")->required()->type_name("TEXT");
  add_writing_options(command, *options);
  add_json_option(command, *options);
  return options;
}

}  // namespace

void add_accounts(CLI::App& program, Run& run) {
  CLI::App* accounts = program.add_subcommand("accounts", "Who may do what in this ledger");
  accounts->require_subcommand(1);

  const auto listing = std::make_shared<AccountOptions>();
  CLI::App* listed = accounts->add_subcommand("list", "The accounts that have a role");
  add_reading_options(*listed, *listing);
  add_json_option(*listed, *listing);
  when_asked(*listed, run, [listing] { return list(*listing); });

  CLI::App* naming = accounts->add_subcommand(
      "name", "Give an account its person and role; the first one switches the rights on");
  const auto options = add_change(*naming);
  naming->add_option("--name", options->name, "The person; signatures stand under it")
      ->required()
      ->type_name("NAME");
  naming->add_option("--role", options->role, "administrator, consultant or auditor")
      ->required()
      ->type_name("ROLE");
  when_asked(*naming, run, [options] { return name(*options); });

  CLI::App* withdrawing = accounts->add_subcommand("withdraw", "Take an account's role away");
  const auto withdrawn = add_change(*withdrawing);
  when_asked(*withdrawing, run, [withdrawn] { return withdraw(*withdrawn); });
}

}  // namespace cli
