// The table of rights. What it leaves out, administrators and consultants may do.

#include <algorithm>
#include <array>

#include "ledger/accounts.h"

namespace ledger {

namespace {

constexpr std::array<std::string_view, 3> texts = {"administrator", "consultant", "auditor"};

using enum Kind;

// A recall is closed, opened or redated as a consequence of a signature too: it is then the consultant who
// signs. `recall opened` is not here: the next step of a signed plan opens when an examination is recorded.
constexpr Kind consultants_alone[] = {
    advice_signed,    advice_overridden, recall_vetted,         recall_redated,
    recall_closed,    person_merged,     person_merge_reversed, person_told_apart,
    protocol_adopted, account_named,     account_withdrawn,
};

constexpr Kind auditors_too[] = {checkpoint, backup};

template <std::size_t size>
bool is_among(const Kind (&kinds)[size], Kind kind) {
  return std::find(std::begin(kinds), std::end(kinds), kind) != std::end(kinds);
}

}  // namespace

std::string_view text_of(Role role) {
  return texts.at(static_cast<std::size_t>(role));
}

std::optional<Role> role_of(std::string_view text) {
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (texts[i] == text) return static_cast<Role>(i);
  }
  return std::nullopt;
}

bool may_write(Role role, Kind kind) {
  switch (role) {
    case Role::consultant:
      return true;
    case Role::administrator:
      return !is_among(consultants_alone, kind);
    default:
      return is_among(auditors_too, kind);
  }
}

bool is_decision(Kind kind) {
  return is_among(consultants_alone, kind) && kind != account_named && kind != account_withdrawn;
}

}  // namespace ledger
