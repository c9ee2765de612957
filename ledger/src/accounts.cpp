#include "ledger/accounts.h"

#include <algorithm>

#include "database/rights_check.h"
#include "database/view.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Errors;
using engine::Result;

namespace {

Errors missing(const Account& account, const std::string& reason) {
  Errors errors;
  const auto need = [&](const std::string& given, const char* what) {
    if (given.empty()) errors.push_back({"detail_missing", std::string("an account needs ") + what, {}, ""});
  };
  need(account.account, "the name that the operating system knows it by");
  need(account.name, "the name of the person who holds it");
  need(reason, "a reason");
  return errors;
}

/// Without a consultant nobody could name accounts any more.
bool leaves_a_consultant(std::vector<Account> named, const std::string& without) {
  return std::any_of(named.begin(), named.end(), [&](const Account& other) {
    return other.role == Role::consultant && other.account != without;
  });
}

Error last_consultant(const std::string& account) {
  return {"last_consultant",
          "`" + account + "` is the only consultant: nobody could name accounts any more",
          {},
          "name another consultant first"};
}

}  // namespace

Result<std::vector<Account>> accounts(const Ledger& ledger) {
  return viewed<std::vector<Account>>(
      ledger, [](Connection& connection, auto& found) { found = all_accounts(connection); });
}

Result<Done> name_account(Ledger& ledger, const Author& author, const Account& account,
                          const std::string& reason) {
  if (Errors errors = missing(account, reason); !errors.empty()) return errors;
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto named = all_accounts(transaction.connection());
    if (named.empty() && account.role != Role::consultant) {
      return Error{"first_account",
                   "the first account must be that of a consultant",
                   {},
                   "from then on only consultants name accounts"};
    }
    if (account.role != Role::consultant && !leaves_a_consultant(named, account.account))
      return last_consultant(account.account);
    transaction.append(author, Kind::account_named, "account:" + account.account,
                       {{"account", account.account},
                        {"name", account.name},
                        {"role", std::string(text_of(account.role))},
                        {"reason", reason}});
    return Done{};
  });
}

Result<Done> withdraw_account(Ledger& ledger, const Author& author, const std::string& account,
                              const std::string& reason) {
  if (reason.empty()) return Error{"reason_missing", "no reason is given", {}, "say why, in a sentence"};
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    if (!find_account(transaction.connection(), account)) {
      return Error{"unknown_account",
                   "the account `" + account + "` has no role in this ledger",
                   {},
                   "`accounts list` shows those that have"};
    }
    if (!leaves_a_consultant(all_accounts(transaction.connection()), account))
      return last_consultant(account);
    transaction.append(author, Kind::account_withdrawn, "account:" + account,
                       {{"account", account}, {"reason", reason}});
    return Done{};
  });
}

}  // namespace ledger
