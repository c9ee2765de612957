// The words of states and actions, in the order of their enumerators.

#include <array>

#include "engine/advice.h"

namespace engine {

namespace {

constexpr std::array<std::string_view, 5> states = {"settled", "awaiting pathology", "depends", "outside",
                                                    "refused"};
constexpr std::array<std::string_view, 8> actions = {
    "surveillance colonoscopy", "site check", "repeat examination", "no surveillance",
    "return to screening",      "refer",      "individualise",      "await pathology"};

}  // namespace

std::string_view text_of(AdviceState state) {
  return states[static_cast<std::size_t>(state)];
}

std::string_view text_of(Action action) {
  return actions[static_cast<std::size_t>(action)];
}

std::optional<Action> action_of(std::string_view text) {
  for (std::size_t i = 0; i < actions.size(); ++i) {
    if (actions[i] == text) return static_cast<Action>(i);
  }
  return std::nullopt;
}

}  // namespace engine
