// A record as the FEEL contexts that rules read, and the facts in it that are open.

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/arena.h"
#include "engine/record.h"
#include "engine/value.h"

namespace engine {

/// A fact that the record does not settle. Its id is its index; the contexts hold Value::open_fact(id).
struct OpenFact {
  enum class Why : std::uint8_t {
    awaited,     ///< Histology that the laboratory still owes.
    lost,        ///< Histology of what was not retrieved or not removed.
    not_stated,  ///< Left out or null.
    bounded,     ///< Known within bounds.
    assumed,     ///< Background left out: `assumed` is used, and the answer says so.
  };
  std::string path;  ///< JSON path in the record: `exam.lesions[1].histology.type`.
  Why why{};
  /// For terms, booleans and small whole numbers: all that it may be. Static strings.
  std::vector<Value> options;
  /// For sizes: the ends of what it may be, those of any lesion when it is not stated. `options` is empty.
  std::optional<Millimetres> least, most;
  Value assumed;  ///< Only for Why::assumed.
  /// Dysplasia: id of the type of the same histology when that is open too and narrows the options; else -1.
  std::int32_t type_fact = -1;
};

struct BoundRecord {
  Value patient, exam, previous, setting;
  std::vector<OpenFact> facts;
};

/// The dysplasia that may be reported with a lesion type. Empty when there is no such type.
/// `common practice`: an adenoma is dysplastic by definition.
std::vector<Value> dysplasia_options(std::string_view type);

/// Fills `bound`, reusing its memory; its values live in `arena`, strings in `record`, which both must
/// outlive them.
///
/// Two facts have neither options nor ends, since nothing can be tried in their place: `patient.birth_date`
/// and `exam.lesions` (or those of an earlier examination) when they are left out.
void bind(const Record& record, Arena& arena, BoundRecord& bound);

}  // namespace engine
