// dueward dmn: one decision of any DMN file, for inputs given as JSON.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <vector>

#include "commands/commands.h"
#include "commands/values.h"
#include "engine/model.h"
#include "failure.h"
#include "report/errors.h"
#include "system/files.h"

namespace cli {

namespace {

using engine::ElementView;

struct DmnOptions : CommonOptions {
  std::string file;
  std::string decision;
  std::string input = "{}";
};

std::uint32_t find(const engine::Model& model, const std::string& name, ElementView::Kind kind,
                   const char* what) {
  if (const auto found = model.find(name, kind)) return *found;
  std::vector<std::string_view> names;
  std::string listed;
  for (const ElementView& element : model.elements()) {
    if (element.kind != kind) continue;
    names.push_back(element.name);
    listed += (listed.empty() ? "`" : ", `") + element.name + "`";
  }
  const std::string near = engine::nearest(name, names);
  std::string help = near.empty() ? "" : "did you mean `" + near + "`? ";
  help += listed.empty() ? std::string("there is none") : "there are " + listed;
  fail(ExitCode::wrong_usage,
       {"unknown_name", std::string("the file has no ") + what + " `" + name + "`", {}, help});
}

ExitCode decide(const DmnOptions& options) {
  const std::string xml = require(read_file(options.file), ExitCode::unreadable_input);
  const auto model = require(engine::Model::load(xml, source_name(options.file)), ExitCode::unreadable_input);
  engine::Evaluation evaluation(model);
  evaluation.set_now(now_of(options));
  const engine::Context& inputs = context_of("--input", options.input, evaluation.arena());
  for (std::uint32_t i = 0; i < inputs.size; ++i) {
    evaluation.set_input(find(*model, std::string(inputs.keys[i]), ElementView::Kind::input, "input"),
                         inputs.values[i]);
  }
  const std::uint32_t decision = find(*model, options.decision, ElementView::Kind::decision, "decision");
  std::cout << engine::literal_of(evaluation.decide(decision)) << '\n';
  if (!options.json) {
    for (const engine::Error& warning : model->warnings()) {
      std::cerr << text_of(warning, engine::Severity::warning);
    }
  }
  return report(evaluation.diagnostics(), source_name(options.file), options.json);
}

}  // namespace

void add_dmn(CLI::App& program, Run& run) {
  const auto options = std::make_shared<DmnOptions>();
  CLI::App* command = program.add_subcommand("dmn", "The value of a decision of a DMN file");
  command->add_option("file", options->file, "The DMN file; - is standard input")
      ->required()
      ->type_name("FILE");
  command->add_option("--decision", options->decision, "The decision's name")->required()->type_name("NAME");
  command->add_option("--input", options->input, "The input data by name")->type_name("JSON");
  add_today_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return decide(*options); });
}

}  // namespace cli
