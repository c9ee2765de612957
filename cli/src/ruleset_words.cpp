#include "ruleset_words.h"

namespace cli {

bool is_written_as_id(const std::string& word) {
  return !word.empty() && word.front() != '-' &&
         word.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

std::vector<std::string> with_each_ruleset_named(const std::vector<std::string>& words) {
  std::vector<std::string> named;
  bool ids_may_follow = false, id_must_follow = false;
  for (const std::string& word : words) {
    if (word == "--ruleset" || word.starts_with("--ruleset=")) {
      id_must_follow = word == "--ruleset";
      ids_may_follow = !id_must_follow;
    } else if (id_must_follow) {
      id_must_follow = false;
      ids_may_follow = true;
    } else if (ids_may_follow && is_written_as_id(word)) {
      named.emplace_back("--ruleset");
    } else {
      ids_may_follow = false;
    }
    named.push_back(word);
  }
  return named;
}

}  // namespace cli
