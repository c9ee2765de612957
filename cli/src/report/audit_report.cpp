#include "report/audit_report.h"

#include <iostream>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "report/layout.h"

namespace cli {

std::string sound_words(const ledger::AuditReport& report, const std::optional<ledger::Checkpoint>& kept) {
  const std::string since = kept ? ", and continues from entry " + std::to_string(kept->size) : "";
  return "sound: " + std::to_string(report.checkpoint.size) + " entries, none altered" + since;
}

namespace {

nlohmann::json json_of(const std::vector<ledger::AuditFault>& faults) {
  nlohmann::json list = nlohmann::json::array();
  for (const ledger::AuditFault& fault : faults)
    list.push_back({{"entry", fault.entry}, {"where", fault.where}, {"what", fault.what}});
  return list;
}

void print_lines(const char* name, const std::vector<ledger::AuditFault>& faults) {
  for (const ledger::AuditFault& fault : faults) {
    const std::string place =
        fault.entry == 0 ? fault.where : fault.where + ", entry " + std::to_string(fault.entry);
    std::cout << wrapped(std::string(name) + ": " + place + ": " + fault.what, 2);
  }
}

}  // namespace

ExitCode print(const ledger::AuditReport& report, const std::string& sound, bool as_json) {
  if (as_json) {
    std::cout << engine::canonical_json({{"checkpoint", ledger::text_of(report.checkpoint)},
                                         {"advices", report.advices},
                                         {"accounts", report.accounts},
                                         {"faults", json_of(report.faults)},
                                         {"remarks", json_of(report.remarks)}})
              << '\n';
  } else {
    print_lines("fault", report.faults);
    print_lines("remark", report.remarks);
    if (report.faults.empty()) {
      std::cout << sound << '\n';
    } else {
      std::cout << report.faults.size() << (report.faults.size() == 1 ? " fault\n" : " faults\n");
    }
    std::cout << ledger::text_of(report.checkpoint) << '\n';
  }
  return report.faults.empty() ? ExitCode::done : ExitCode::needs_a_person;
}

}  // namespace cli
