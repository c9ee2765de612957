// Who may do what: accounts of the operating system, the people who hold them, and their roles. As long as a
// ledger names no account, everyone who can open the file may do everything. Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/kind.h"
#include "ledger/ledger.h"

namespace ledger {

enum class Role : std::uint8_t {
  administrator,  ///< Takes in, invites, books, keeps people's data.
  consultant,  ///< All of that; and signs, overrides, vets, redates, closes, merges, adopts, names accounts.
  auditor      ///< Reads; checkpoints and backups.
};
std::string_view text_of(Role role);
std::optional<Role> role_of(std::string_view text);

/// The one table of rights: whether a holder of `role` may write entries of `kind`.
bool may_write(Role role, Kind kind);

/// A decision of one person: the clinician that such an entry names must hold the account that writes it.
bool is_decision(Kind kind);

struct Account {
  std::string account;  ///< As the operating system names it: `j.smith`.
  std::string name;     ///< The person: `Dr Jo Smith`. Signatures and decisions stand under it.
  Role role{};
};

/// In the order of their names. Empty: no account was ever named, or none is left.
engine::Result<std::vector<Account>> accounts(const Ledger& ledger);

/// Names an account, or gives it another person or role. The first one switches the table of rights on, and
/// must be a consultant. Fails with `detail_missing`, `first_account`, `last_consultant`, and as ledger.h
/// says.
engine::Result<engine::Done> name_account(Ledger& ledger, const Author& author, const Account& account,
                                          const std::string& reason);

/// Fails with `unknown_account`, `reason_missing`, `last_consultant` (nobody could name another any more),
/// and as ledger.h says.
engine::Result<engine::Done> withdraw_account(Ledger& ledger, const Author& author,
                                              const std::string& account, const std::string& reason);

}  // namespace ledger
