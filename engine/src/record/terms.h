// The vocabulary of the record: every term once, in the order of the enumerators of record.h.
//
// `common practice` for the trade's words; the list is docs/record-format.md. Reader, binder and the line of
// findings all take them from here.

#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/record.h"

namespace engine {

namespace detail {
template <class Term>
struct Vocabulary;  // terms: an array of std::string_view

#define ENGINE_VOCABULARY(TERM, ...)                                              \
  template <>                                                                     \
  struct Vocabulary<TERM> {                                                       \
    static constexpr auto terms = std::to_array<std::string_view>({__VA_ARGS__}); \
  }

ENGINE_VOCABULARY(Sex, "female", "male", "unknown");
ENGINE_VOCABULARY(Indication, "screening", "surveillance", "symptoms", "site check", "cancer follow-up",
                  "inflammatory bowel disease surveillance", "family history");
ENGINE_VOCABULARY(Procedure, "colonoscopy", "flexible sigmoidoscopy", "CT colonography");
ENGINE_VOCABULARY(Segment, "terminal ileum", "caecum", "ascending colon", "hepatic flexure",
                  "transverse colon", "splenic flexure", "descending colon", "sigmoid colon", "rectosigmoid",
                  "rectum", "anastomosis");
ENGINE_VOCABULARY(Grade, "excellent", "good", "fair", "poor", "adequate", "inadequate");
ENGINE_VOCABULARY(Paris, "0-Ip", "0-Isp", "0-Is", "0-IIa", "0-IIb", "0-IIc");
ENGINE_VOCABULARY(Removal, "en bloc", "piecemeal", "biopsy only", "not removed");
ENGINE_VOCABULARY(LesionType, "tubular adenoma", "tubulovillous adenoma", "villous adenoma",
                  "sessile serrated lesion", "traditional serrated adenoma", "hyperplastic polyp",
                  "unclassified serrated polyp", "inflammatory polyp", "hamartoma", "normal mucosa",
                  "adenocarcinoma");
ENGINE_VOCABULARY(Dysplasia, "none", "low grade", "high grade");
ENGINE_VOCABULARY(Margin, "clear", "involved", "not assessable");
ENGINE_VOCABULARY(ConditionName, "lynch syndrome", "familial adenomatous polyposis",
                  "MUTYH-associated polyposis", "serrated polyposis syndrome", "ulcerative colitis",
                  "crohn's colitis", "primary sclerosing cholangitis", "colorectal cancer resected");
ENGINE_VOCABULARY(FamilyHistory, "none", "moderate", "high");
ENGINE_VOCABULARY(Extent, "proctitis", "left-sided", "extensive");
ENGINE_VOCABULARY(Activity, "none", "mild", "moderate", "severe");
// Kinds: `common practice`. Severity: the grades of the endoscopists' lexicon of adverse events (Cotton 2010,
// doi:10.1016/j.gie.2009.10.027), from memory.
ENGINE_VOCABULARY(ComplicationKind, "bleeding", "perforation", "post-polypectomy syndrome",
                  "cardiorespiratory", "sedation-related", "other");
ENGINE_VOCABULARY(ComplicationSeverity, "mild", "moderate", "severe", "fatal");

#undef ENGINE_VOCABULARY
}  // namespace detail

template <class Term>
inline constexpr std::span<const std::string_view> vocabulary{detail::Vocabulary<Term>::terms};

/// The term as it stands in a record. Static storage.
template <class Term>
constexpr std::string_view term_of(Term value) {
  return detail::Vocabulary<Term>::terms[static_cast<std::size_t>(value)];
}

/// Its position among `terms`, matched letter by letter; no value when it is none of them.
std::optional<std::size_t> position_of(std::string_view text, std::span<const std::string_view> terms);

template <class Term>
std::optional<Term> term_from(std::string_view text) {
  const auto position = position_of(text, vocabulary<Term>);
  if (!position) return std::nullopt;
  return static_cast<Term>(*position);
}

// Terms that the record keeps as text.

/// Genes of the hereditary syndromes that conditions name.
inline constexpr auto genes =
    std::to_array<std::string_view>({"MLH1", "MSH2", "MSH6", "PMS2", "EPCAM", "APC", "MUTYH"});
/// Cancers of relatives. A rule looks for the exact word, so a free spelling would be overlooked.
inline constexpr auto relatives_cancers = std::to_array<std::string_view>(
    {"colorectal", "endometrial", "ovarian", "gastric", "small bowel", "urinary tract", "pancreatic",
     "biliary", "brain", "skin", "breast", "prostate", "other"});
/// Nations with rules of their own. Other countries are allowed; a misspelling of one of these is not.
inline constexpr auto nations =
    std::to_array<std::string_view>({"England", "Scotland", "Wales", "Northern Ireland"});

/// The terms as a sentence gives them: "`a`, `b` or `c`".
std::string alternatives(std::span<const std::string_view> terms, std::string_view last_joint = "or");

}  // namespace engine
