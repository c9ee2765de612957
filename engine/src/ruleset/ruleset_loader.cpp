#include <algorithm>
#include <array>

#include "engine/canonical.h"
#include "engine/ruleset.h"
#include "ruleset/about_reader.h"
#include "ruleset/diagnostic_errors.h"
#include "ruleset/row_collector.h"

namespace engine {

namespace {

Error missing_decision(std::string_view name, std::string_view help) {
  Error error;
  error.code = "missing_decision";
  error.message = "the ruleset has no decision `" + std::string(name) + "`";
  error.help = help;
  return error;
}

RulesetAbout about_of(const std::shared_ptr<const Model>& model, Errors& errors) {
  const auto decision = model->find("About", ElementView::Kind::decision);
  if (!decision) {
    errors.push_back(
        missing_decision("About", "it gives the id, edition, title, publisher and state as a context"));
    return {};
  }
  Evaluation evaluation(model);
  const Value value = evaluation.decide(*decision);
  if (evaluation.has_error()) {
    add_errors(evaluation.diagnostics(), errors);
    return {};
  }
  return read_about(value, errors);
}

/// The engine hands over the record and nothing else.
void check_inputs(const Model& model, Errors& errors) {
  static constexpr std::array<std::string_view, 4> inputs = {"patient", "exam", "previous", "setting"};
  for (const ElementView& element : model.elements()) {
    if (element.kind != ElementView::Kind::input) continue;
    if (std::find(inputs.begin(), inputs.end(), element.name) != inputs.end()) continue;
    Error error;
    error.code = "unknown_input";
    error.message = "the input `" + element.name + "` is none that a record has";
    error.help = "the inputs are `patient`, `exam`, `previous` and `setting`";
    errors.push_back(std::move(error));
  }
}

void name_source(Errors& errors, std::string_view source) {
  for (Error& error : errors) {
    if (error.place.source.empty()) error.place.source = source;
  }
}

/// `importer`, with what it finds kept in `imports`. An import that states no digest is an error.
Model::Importer keeping(const Model::Importer& importer, std::vector<ImportedFile>& imports, Errors& errors) {
  return [&importer, &imports, &errors](const Import& import) -> std::optional<std::string> {
    if (import.digest.empty()) {
      Error error;
      error.code = "unpinned_import";
      error.message = "the import of `" + import.namespace_name + "` states no digest";
      error.help = "a ruleset states which bytes it takes in: `dueward:digest=\"sha256:...\"`";
      errors.push_back(std::move(error));
    }
    std::optional<std::string> text = importer ? importer(import) : std::nullopt;
    if (text) imports.push_back({import.namespace_name, digest_text(*text), *text});
    return text;
  };
}

}  // namespace

const RulesetRow* Ruleset::row(std::string_view id) const {
  const auto at = std::find_if(rows.begin(), rows.end(), [&](const RulesetRow& row) { return row.id == id; });
  return at == rows.end() ? nullptr : &*at;
}

Result<std::shared_ptr<const Ruleset>> load_ruleset(std::string_view xml, std::string_view source,
                                                    const Model::Importer& importer) {
  Errors errors;
  auto ruleset = std::make_shared<Ruleset>();
  auto model = Model::load(xml, source, Profile::clinical, keeping(importer, ruleset->imports, errors));
  if (!model) errors.insert(errors.end(), model.errors().begin(), model.errors().end());
  if (!errors.empty()) {
    name_source(errors, source);
    return errors;
  }
  ruleset->digest = digest_text(xml);
  ruleset->model = *model;
  ruleset->about = about_of(*model, errors);
  if (const auto next_step = (*model)->find("Next step", ElementView::Kind::decision)) {
    ruleset->next_step = *next_step;
  } else {
    errors.push_back(
        missing_decision("Next step", "it gives the action, the interval, the rule and the reason"));
  }
  ruleset->flags = (*model)->find("Flags", ElementView::Kind::decision);
  ruleset->facts = (*model)->find("Facts", ElementView::Kind::decision);
  check_inputs(**model, errors);
  ruleset->rows = collect_rows((*model)->tables(), errors);

  if (!errors.empty()) {
    name_source(errors, source);
    return errors;
  }
  return std::shared_ptr<const Ruleset>(std::move(ruleset));
}

}  // namespace engine
