// A published guideline as a checked DMN file: its edition, sources, rows, and the decisions that advise()
// asks. Source: docs/ruleset-format.md.

#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/model.h"
#include "engine/result.h"

namespace engine {

/// Where a row stands in its source and how it was read.
struct RulesetRow {
  std::string id;      ///< Row id of the fact sheet: `20-01`.
  std::string source;  ///< Statement, table or page.
  std::string
      evidence;      ///< `guideline`, `secondary`, `memory`, or `engine` for rows that are no recommendation.
  std::string text;  ///< What the row says, one line.
};

struct RulesetAbout {
  std::string id;       ///< `uk-2020`.
  std::string edition;  ///< Of our encoding: `1.0.0`.
  std::string title;
  std::string publisher;
  std::string published;  ///< Date of the guideline.
  std::string doi;
  std::string state;  ///< `current`, `superseded`, `withdrawn`.
  std::vector<std::string> supersedes;
  std::optional<std::string> superseded_by;
  std::vector<std::string> cautions;  ///< Shown on every answer.
};

/// A file that the ruleset imports. The importing file states its digest, so the ruleset's own digest stands for it too.
struct ImportedFile {
  std::string namespace_name;
  std::string digest;  ///< `sha256:...` of `bytes`.
  std::string bytes;
};

struct Ruleset {
  RulesetAbout about;
  std::string digest;  ///< `sha256:...` of the bytes of ruleset.dmn.
  std::vector<ImportedFile> imports;  ///< Each once, in the order in which they were read.
  std::shared_ptr<const Model> model;
  std::vector<RulesetRow> rows;               ///< Every row of every table that carries row ids.
  std::uint32_t next_step = 0;                ///< Decision `Next step`.
  std::optional<std::uint32_t> flags, facts;  ///< Decisions `Flags` and `Facts`, when the file has them.

  const RulesetRow* row(std::string_view id) const;
};

/// Reads and checks the bytes of a ruleset.dmn. `source` names the file in errors. An import without a digest is refused.
Result<std::shared_ptr<const Ruleset>> load_ruleset(std::string_view xml, std::string_view source,
                                                    const Model::Importer& importer = {});

}  // namespace engine
