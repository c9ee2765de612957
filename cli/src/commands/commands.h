// The subcommands; each file says what its own do.

#pragma once

#include "command.h"

namespace cli {

void add_advise(CLI::App& program, Run& run);
void add_rulesets(CLI::App& program, Run& run);
void add_record(CLI::App& program, Run& run);
void add_result(CLI::App& program, Run& run);
void add_advice(CLI::App& program, Run& run);
void add_recall(CLI::App& program, Run& run);
void add_lists(CLI::App& program, Run& run);
void add_forecast(CLI::App& program, Run& run);
void add_revet(CLI::App& program, Run& run);
void add_patient(CLI::App& program, Run& run);
void add_people(CLI::App& program, Run& run);
void add_letter(CLI::App& program, Run& run);
void add_accounts(CLI::App& program, Run& run);
void add_protocol(CLI::App& program, Run& run);
void add_backup(CLI::App& program, Run& run);
void add_restore(CLI::App& program, Run& run);
void add_export(CLI::App& program, Run& run);
void add_import(CLI::App& program, Run& run);
void add_withdraw(CLI::App& program, Run& run);
void add_audit(CLI::App& program, Run& run);
void add_serve(CLI::App& program, Run& run);
void add_demo(CLI::App& program, Run& run);
void add_feel(CLI::App& program, Run& run);
void add_dmn(CLI::App& program, Run& run);

}  // namespace cli
