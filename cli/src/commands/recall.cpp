// dueward recall: what happens to a recall from its opening to its end. One subcommand a move.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>
#include <string_view>

#include "commands/commands.h"
#include "ledger/recalls.h"
#include "ledger_access.h"

namespace cli {

namespace {

using ledger::Move;

struct MoveOptions : LedgerOptions {
  std::string recall;
  std::string clinician, reason, means, from, to, on;
  std::string result = "invite", owner;  // of vetting; of the last invitation
};

struct MoveCommand {
  Move move;
  const char* purpose;
  const char*
      wants;  // letters of the options that it takes: b(y), r(eason), m(eans), w(indow), o(n), v(etting)
};

constexpr MoveCommand moves[] = {
    {Move::vet, "A clinician looks again: invite, clinic or stop", "brvo"},
    {Move::redate, "A clinician moves the due window", "brwo"},
    {Move::defer, "Not ready for a time: those days do not count", "rwo"},
    {Move::invite, "The next attempt to reach the person was made", "mo"},
    {Move::book, "An appointment was made", "o"},
    {Move::cancel, "The appointment was cancelled", "ro"},
    {Move::miss, "The patient did not attend", "o"},
    {Move::attend, "The patient attended", "o"},
    {Move::hand_over, "Handed over to another service", "ro"},
    {Move::take_back, "Taken back from another service", "o"},
    {Move::close, "A clinician ends it, with a reason and the day of the decision", "bro"},
    {Move::reopen, "Open it again; its old clock goes on", "ro"},
};

std::string word_of(Move move) {
  std::string word(ledger::text_of(move));
  std::replace(word.begin(), word.end(), ' ', '-');
  return word;
}

std::optional<engine::Date> day(const char* option, const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(date_of(option, text));
}

ledger::Vetting vetting_of(const std::string& text) {
  if (const auto result = ledger::vetting_of(text)) return *result;
  fail(ExitCode::wrong_usage, {"unknown_result",
                               "--result: vetting does not end with `" + text + "`",
                               {},
                               "`invite`, `clinic` or `stop`"});
}

ExitCode move_recall(const MoveOptions& options, Move move) {
  const ledger::MoveDetails details{options.clinician,
                                    options.reason,
                                    options.means,
                                    day("--from", options.from),
                                    day("--to", options.to),
                                    day("--on", options.on),
                                    vetting_of(options.result),
                                    options.owner};
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const auto state =
      from_ledger(ledger::move_recall(ledger, author_of(options, clock), options.recall, move, details));
  std::cout << options.recall << ": " << ledger::text_of(state) << '\n';
  return ExitCode::done;
}

void add_move(CLI::App& parent, Run& run, const MoveCommand& move) {
  const auto options = std::make_shared<MoveOptions>();
  CLI::App* command = parent.add_subcommand(word_of(move.move), move.purpose);
  const auto wants = [&](char letter) {
    return std::string_view(move.wants).find(letter) != std::string_view::npos;
  };
  command->add_option("recall", options->recall, "The recall's number")->required()->type_name("RECALL");
  if (wants('b'))
    command->add_option("--by", options->clinician, "The clinician who decides")->type_name("NAME");
  if (wants('r')) command->add_option("--reason", options->reason, "Why")->type_name("TEXT");
  if (wants('m')) {
    command
        ->add_option("--means", options->means,
                     "How; left out: letter, letter, telephone, family doctor, final, in this order")
        ->type_name("TEXT");
    command->add_option("--owner", options->owner, "The last attempt: who decides when nobody answers")
        ->type_name("NAME");
  }
  if (wants('v'))
    command->add_option("--result", options->result, "invite (left out), clinic or stop")
        ->type_name("RESULT");
  if (wants('w')) {
    command->add_option("--from", options->from, "First day")->type_name("YYYY-MM-DD");
    command->add_option("--to", options->to, "Last day")->type_name("YYYY-MM-DD");
  }
  if (wants('o'))
    command->add_option("--on", options->on, "The day it is about; left out: today")->type_name("YYYY-MM-DD");
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options, kind = move.move] { return move_recall(*options, kind); });
}

}  // namespace

void add_recall(CLI::App& program, Run& run) {
  CLI::App* command =
      program.add_subcommand("recall", "What happens to a recall: vet, invite, book, close ...");
  command->require_subcommand(1);
  for (const MoveCommand& move : moves) add_move(*command, run, move);
}

}  // namespace cli
