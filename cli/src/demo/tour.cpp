#include "demo/tour.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <sstream>
#include <vector>

#include "command.h"
#include "failure.h"
#include "report/errors.h"
#include "report/layout.h"

namespace cli {

namespace {

constexpr std::size_t lines_shown = 24;

// Takes what is written to standard output for as long as it lives.
class Captured {
 public:
  Captured() : kept_(std::cout.rdbuf(taken_.rdbuf())) {}
  ~Captured() { std::cout.rdbuf(kept_); }
  Captured(const Captured&) = delete;
  Captured& operator=(const Captured&) = delete;
  std::string text() const { return taken_.str(); }

 private:
  std::ostringstream taken_;
  std::streambuf* kept_;
};

// Runs a command line as main() would, and gives what it prints.
std::string output_of(std::vector<std::string> words) {
  CLI::App program;
  Run run;
  add_commands(program, run);
  const Captured captured;
  try {
    std::reverse(words.begin(), words.end());  // CLI11 takes the last word first
    program.parse(words);
    run();
  } catch (const Failure& failure) {
    return captured.text() + text_of(failure.errors);
  }
  return captured.text();
}

std::string quoted(const std::string& word) {
  return word.find(' ') == std::string::npos ? word : "\"" + word + "\"";
}

void show(const Tour& tour, const std::string& explanation, const std::vector<std::string>& words) {
  std::cout << '\n' << wrapped(explanation) << "\n  $ " << tour.program;
  for (const std::string& word : words) std::cout << ' ' << quoted(word);
  std::cout << "\n\n";
  std::istringstream output(output_of(words));
  std::size_t shown = 0, left = 0;
  for (std::string line; std::getline(output, line);) {
    if (shown < lines_shown) {
      std::cout << (line.empty() ? "" : "  ") << line << '\n';
      ++shown;
    } else {
      ++left;
    }
  }
  if (left > 0) std::cout << "  (and " << left << " more lines)\n";
}

}  // namespace

void walk(const Tour& tour) {
  const std::vector<std::string> where = {"--ledger", tour.ledger, "--today", engine::text_of(tour.today)};
  const auto on_ledger = [&](std::vector<std::string> words) {
    words.insert(words.end(), where.begin(), where.end());
    return words;
  };
  show(tour, "1. One examination, no ledger: what does the guideline say, and why?",
       {"advise", tour.record, "--ruleset", tour.ruleset, "--today", engine::text_of(tour.today)});
  show(tour, "2. Who is due? The office works through this list.", on_ledger({"due"}));
  show(tour,
       "3. Who is late? No one drops off this list until a clinician or the examination takes them off.",
       on_ledger({"overdue"}));
  show(tour, "4. Whose pathology has not come back? The laboratory owes these.", on_ledger({"awaiting"}));
  show(tour, "5. Which examinations have no outcome yet? The consultant empties this list.",
       on_ledger({"unplanned"}));
  if (!tour.exam_to_sign.empty()) {
    show(tour, "6. The consultant signs one of them; it leaves that list, and its recall is opened.",
         on_ledger({"advice", "sign", tour.exam_to_sign, "--by", "Dr R. Hazelmere"}));
  }
  show(tour, "7. Was anything altered since? The auditor asks the ledger itself.",
       {"audit", "verify", "--ledger", tour.ledger});
  std::cout << "\nThe ledger stays where it is: try `" << tour.program
            << " --help`. Everything in it is invented.\n";
}

}  // namespace cli
