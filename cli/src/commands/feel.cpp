// dueward feel: the value of one FEEL expression, as FEEL writes it.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <vector>

#include "commands/commands.h"
#include "commands/values.h"
#include "engine/model.h"
#include "failure.h"

namespace cli {

namespace {

struct FeelOptions : CommonOptions {
  std::string expression;
  std::string context = "{}";
};

ExitCode evaluate_expression(const FeelOptions& options) {
  engine::Arena arena;
  const engine::Context& context = context_of("--context", options.context, arena);
  std::vector<engine::Named> scope;
  for (std::uint32_t i = 0; i < context.size; ++i) scope.push_back({context.keys[i], context.values[i]});

  auto answer = engine::evaluate(options.expression, scope, arena, now_of(options));
  if (!answer) {
    engine::Errors errors = answer.errors();
    for (engine::Error& error : errors) {
      if (error.place.source.empty()) error.place.source = "expression";
    }
    throw Failure{ExitCode::unreadable_input, errors};
  }
  std::cout << engine::literal_of(answer->value) << '\n';
  return report(answer->diagnostics, "expression", options.json);
}

}  // namespace

void add_feel(CLI::App& program, Run& run) {
  const auto options = std::make_shared<FeelOptions>();
  CLI::App* command = program.add_subcommand("feel", "The value of a FEEL expression");
  command->add_option("expression", options->expression, "The expression")->required()->type_name("EXPR");
  command->add_option("--context", options->context, "Its names and their values")->type_name("JSON");
  add_today_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return evaluate_expression(*options); });
}

}  // namespace cli
