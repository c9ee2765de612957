// dueward rulesets verify and sign: whether the files are those that somebody vouched for.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>

#include "failure.h"
#include "report/errors.h"
#include "rulesets/check.h"
#include "rulesets/commands.h"
#include "rulesets/manifest.h"
#include "rulesets/signature.h"
#include "rulesets/table_faults.h"
#include "rulesets_folder.h"
#include "system/files.h"

namespace cli {

namespace {

namespace fs = std::filesystem;
using engine::Error;
using engine::Errors;

struct VerifyOptions : RulesetsOptions {
  bool write = false;
  std::string key, signatures;
};

// Beside the folder of rulesets and not in it: an installed folder belongs to the program, signatures to the
// unit.
fs::path signatures_folder(const VerifyOptions& options) {
  if (!options.signatures.empty()) return options.signatures;
  return fs::absolute(rulesets_folder(options)).lexically_normal().parent_path() / "signatures";
}

fs::path signature_file(const VerifyOptions& options, const std::string& id) {
  return signatures_folder(options) / (id + ".sig");
}

/// What speaks against vouching for a ruleset: it cannot be loaded, names an action or ruleset that there is
/// not, or its tables have a gap or overlap that a record meets, or a rule that never fires.
Errors unfit(const fs::path& folder, const std::string& id, const std::vector<std::string>& known) {
  const auto file = load_ruleset_file(folder, id);
  if (!file) return file.errors();
  const std::string path = (folder / id / "ruleset.dmn").string();
  Errors errors = faulty_words(*file->ruleset, known, path);
  for (Error& fault : look_at_tables(file->ruleset, path).faults) errors.push_back(std::move(fault));
  return errors;
}

// Nothing is advised with what the manifest leaves out, unless `--unverified` says so.
ExitCode write(const VerifyOptions& options) {
  const fs::path folder = rulesets_folder(options);
  Manifest manifest = require(manifest_of_files(folder), ExitCode::unreadable_input);
  Errors errors = duplicate_ids(folder);
  const std::vector<std::string> known = ruleset_ids(folder);
  for (const std::string& id : known) {
    Errors found = unfit(folder, id, known);
    if (found.empty()) continue;
    manifest.erase(id + "/ruleset.dmn");
    std::cout << id << ": left out of the manifest\n";
    errors.insert(errors.end(), found.begin(), found.end());
  }
  require(write_atomically(folder / manifest_name, text_of(manifest)), ExitCode::unreadable_input);
  std::cout << (folder / manifest_name).string() << ": " << manifest.size() << " files\n";
  if (!errors.empty()) throw Failure{ExitCode::needs_a_person, std::move(errors)};
  return ExitCode::done;
}

Manifest stated_manifest(const fs::path& folder) {
  auto stated = require(read_manifest(folder), ExitCode::unreadable_input);
  if (stated) return std::move(*stated);
  fail(ExitCode::unreadable_input, {"no_manifest",
                                    "there is no `" + (folder / manifest_name).string() + "`",
                                    {},
                                    "`dueward rulesets verify --write` makes it from the files as they are"});
}

// What the manifest has to say about `id` and the files that it may import; everything when no id is named.
Manifest part_for(const Manifest& whole, const std::vector<std::string>& ids) {
  if (ids.empty()) return whole;
  Manifest part;
  for (const auto& [path, digest] : whole) {
    const std::string folder = path.substr(0, path.find('/'));
    if (folder == "shared" || std::find(ids.begin(), ids.end(), folder) != ids.end()) part[path] = digest;
  }
  return part;
}

Errors signature_errors(const VerifyOptions& options, const std::string& id, const std::string& bytes,
                        const std::string& key) {
  const fs::path file = signature_file(options, id);
  std::error_code ignored;
  if (!fs::exists(file, ignored)) {
    return {{"missing_signature",
             "the ruleset `" + id + "` has no signature `" + file.string() + "`",
             {},
             "`dueward rulesets sign --key PRIVATE.pem " + id +
                 "` makes it; `--signatures DIR` names another folder"}};
  }
  const std::string signature = require(read_file(file.string()), ExitCode::unreadable_input);
  switch (verify_signature(bytes, signature, key)) {
    case SignatureFault::none:
      return {};
    case SignatureFault::malformed:
      return {{"malformed_signature",
               "`" + file.string() + "` is no signature: it has " + std::to_string(signature.size()) +
                   " bytes, an Ed25519 signature has 64",
               {},
               "sign the ruleset again"}};
    default:
      return {{"bad_signature",
               "the signature of the ruleset `" + id +
                   "` does not fit: the file is not the one that was signed, or "
                   "`" +
                   options.key + "` is not the signer's key",
               {},
               "compare the file with the one that was approved; do not use it until a signature fits"}};
  }
}

ExitCode verify(const VerifyOptions& options) {
  if (options.write) return write(options);
  const fs::path folder = rulesets_folder(options);
  std::string key;
  if (!options.key.empty()) {
    key = require(read_file(options.key), ExitCode::unreadable_input);
    require(check_public_key(key, options.key), ExitCode::unreadable_input);
  }
  for (const std::string& id : options.ids) require_known(folder, id);
  Errors errors = differences(
      part_for(stated_manifest(folder), options.ids),
      part_for(require(manifest_of_files(folder), ExitCode::unreadable_input), options.ids), folder);
  ExitCode code = ExitCode::needs_a_person;
  for (const std::string& id : chosen_ids(options)) {
    const auto loaded = load_ruleset_file(folder, id);
    if (!loaded) {
      errors.insert(errors.end(), loaded.errors().begin(), loaded.errors().end());
      code = ExitCode::unreadable_input;
      continue;
    }
    const RulesetFile& file = *loaded;
    std::cout << file.ruleset->digest << "  " << id << " " << file.ruleset->about.edition << '\n';
    if (key.empty()) continue;
    const Errors found = signature_errors(options, id, file.bytes, key);
    errors.insert(errors.end(), found.begin(), found.end());
  }
  if (!errors.empty()) throw Failure{code, std::move(errors)};
  return ExitCode::done;
}

ExitCode sign_all(const VerifyOptions& options) {
  const fs::path folder = rulesets_folder(options);
  const std::string key = require(read_file(options.key), ExitCode::unreadable_input);
  require(make_folder(signatures_folder(options)), ExitCode::unreadable_input);
  for (const std::string& id : options.ids) {
    const RulesetFile file = ruleset_in_force(folder, id, Trust::manifest_only);
    const std::string signature = require(sign(file.bytes, key, options.key), ExitCode::unreadable_input);
    require(write_atomically(signature_file(options, id), signature), ExitCode::unreadable_input);
    std::cout << file.ruleset->digest << "  " << id << " " << file.ruleset->about.edition << " signed in "
              << signature_file(options, id).string() << '\n';
  }
  return ExitCode::done;
}

void add_signatures_option(CLI::App& command, VerifyOptions& options) {
  command
      .add_option("--signatures", options.signatures,
                  "Folder of the signatures; left out: beside the rulesets")
      ->type_name("DIR");
}

}  // namespace

void add_rulesets_verify(CLI::App& group, Run& run) {
  const auto options = std::make_shared<VerifyOptions>();
  CLI::App* command =
      group.add_subcommand("verify", "Checks each file against the manifest, and signatures with a key");
  add_ids(*command, *options);
  CLI::Option* key =
      command->add_option("--key", options->key, "Public key: also check the signatures")->type_name("FILE");
  command->add_flag("--write", options->write, "Make the manifest again from the files as they are")
      ->excludes(key);
  add_signatures_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return verify(*options); });
}

void add_rulesets_sign(CLI::App& group, Run& run) {
  const auto options = std::make_shared<VerifyOptions>();
  CLI::App* command = group.add_subcommand("sign", "Signs rulesets with the unit's own key");
  add_ids(*command, *options);
  command->get_option("id")->required();
  command->add_option("--key", options->key, "Private key, Ed25519, PEM")->required()->type_name("FILE");
  add_signatures_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return sign_all(*options); });
}

}  // namespace cli
