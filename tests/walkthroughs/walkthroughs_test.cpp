// A morning's work, command by command, as it stands in the files beside this one: what was typed, what was
// printed, and the exit code. Each is replayed over the invented unit and compared. What differs from run to
// run (instants, digests) is left out of the comparison.
//
// A file: prose; then `$ COMMAND`, its output, and `= EXIT CODE`, as often as needed. After a change that was
// meant, DUEWARD_REWRITE=1 writes the outputs anew: read the difference before it is committed.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <vector>

#include "support/places.h"
#include "support/shell.h"
#include "support/temporary_folder.h"

namespace {

namespace fs = std::filesystem;

struct Step {
  std::string prose;  ///< Before the command.
  std::string command, output;
  int exit_code = 0;
};

std::vector<Step> steps_of(const fs::path& file) {
  std::ifstream text(file);
  std::vector<Step> steps(1);
  bool in_output = false;
  for (std::string line; std::getline(text, line);) {
    if (in_output && line.starts_with("= ")) {
      steps.back().exit_code = std::stoi(line.substr(2));
      steps.emplace_back();
      in_output = false;
    } else if (in_output) {
      steps.back().output += line + "\n";
    } else if (line.starts_with("$ ")) {
      steps.back().command = line.substr(2);
      in_output = true;
    } else {
      steps.back().prose += line + "\n";
    }
  }
  if (in_output) throw std::runtime_error(file.string() + ": the last command has no `= EXIT CODE`");
  return steps;
}

std::string comparable(const std::string& output) {
  static const std::regex instants(R"(\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z)");
  static const std::regex digests("sha256:[0-9a-f]{64}");
  return std::regex_replace(std::regex_replace(output, instants, "<instant>"), digests, "sha256:<digest>");
}

Step replayed(Step step, const support::TemporaryFolder& folder) {
  const std::string program = fs::path(support::program()).parent_path().string();
  const auto result = support::shell("cd '" + folder.file("") + "' && export PATH='" + program +
                                     "':\"$PATH\" DUEWARD_ACTOR=office DUEWARD_RULESETS='" +
                                     support::source("rulesets") + "' && { " + step.command + "; } 2>&1");
  step.output = comparable(result.printed);
  step.exit_code = result.exit_code;
  return step;
}

void write(const fs::path& file, const std::vector<Step>& steps) {
  std::ofstream text(file);
  for (const Step& step : steps) {
    text << step.prose;
    if (!step.command.empty())
      text << "$ " << step.command << '\n' << step.output << "= " << step.exit_code << '\n';
  }
}

}  // namespace

TEST_CASE("each walkthrough goes as it is written down", "[walkthrough]") {
  const bool rewrite = std::getenv("DUEWARD_REWRITE") != nullptr;
  int walked = 0;
  for (const auto& entry : fs::directory_iterator(support::source("tests/walkthroughs"))) {
    if (entry.path().extension() != ".txt") continue;
    const support::TemporaryFolder folder;
    std::vector<Step> steps = steps_of(entry.path());
    for (Step& step : steps) {
      if (step.command.empty()) continue;
      const Step now = replayed(step, folder);
      INFO(entry.path().filename().string() << ": $ " << step.command);
      if (!rewrite) {
        CHECK(now.output == step.output);
        CHECK(now.exit_code == step.exit_code);
      }
      step = now;
      ++walked;
    }
    if (rewrite) write(entry.path(), steps);
  }
  CHECK(walked > 20);
}
