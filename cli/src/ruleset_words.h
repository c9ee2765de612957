// `--ruleset A B C`: several ids behind one option, without taking the files that follow for ids.

#pragma once

#include <string>
#include <vector>

namespace cli {

/// True for a word written as ruleset ids are: lower-case letters, digits and hyphens, not a hyphen first.
bool is_written_as_id(const std::string& word);

/// The words of a command line with `--ruleset` put before every further id that follows it: the words behind
/// `--ruleset ID`, up to the first that is not written as an id, are ids too. A file that is named like an id
/// is written `./name`.
std::vector<std::string> with_each_ruleset_named(const std::vector<std::string>& words);

}  // namespace cli
