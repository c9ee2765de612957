// People who may be one: the pairs of each birth date, compared by name.

#include "database/lines.h"
#include "database/view.h"
#include "ledger/people.h"
#include "similar_names.h"

namespace ledger {

namespace {

/// People of one birth date, in the order of their registration.
using Group = std::vector<PersonLine>;

bool are_told_apart(Connection& connection, const std::string& person, const std::string& other) {
  return connection
      .first(
          "SELECT 1 FROM told_apart WHERE (person = ?1 AND other = ?2) OR (person = ?2 AND other = ?1)",
          [](const Row& row) { return row.number(0); }, person, other)
      .has_value();
}

bool differ(const std::string& a, const std::string& b) {
  return !a.empty() && !b.empty() && a != "unknown" && b != "unknown" && a != b;
}

void compare(Connection& connection, const Group& group, std::vector<Duplicate>& found) {
  for (std::size_t i = 0; i < group.size(); ++i) {
    for (std::size_t j = i + 1; j < group.size(); ++j) {
      const std::string likeness = likeness_of(group[i].name, group[j].name);
      if (likeness.empty() || are_told_apart(connection, group[i].person, group[j].person)) continue;
      const std::string sex = differ(group[i].sex, group[j].sex) ? "; but sex differs" : "";
      found.push_back({group[i], group[j], "same birth date, " + likeness + sex});
    }
  }
}

}  // namespace

engine::Result<std::vector<Duplicate>> duplicates(const Ledger& ledger) {
  return viewed<std::vector<Duplicate>>(ledger, [&](Connection& connection, auto& found) {
    Group group;
    connection.each("SELECT " LEDGER_PERSON_COLUMNS
                    " FROM people AS p WHERE p.birth_date <> '' AND p.merged_into = ''"
                    " ORDER BY p.birth_date, CAST(substr(p.person, 2) AS INTEGER)",
                    [&](const Row& row) {
                      PersonLine person = person_of(row, 0);
                      if (!group.empty() && group.front().birth_date != person.birth_date) {
                        compare(connection, group, found);
                        group.clear();
                      }
                      group.push_back(std::move(person));
                    });
    compare(connection, group, found);
  });
}

}  // namespace ledger
