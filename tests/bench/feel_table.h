// What the comparison of FEEL evaluators computes: a filter over lesions and a decision table, as text.

#pragma once

#include <array>
#include <string>

namespace bench {

inline const std::string filter_text =
    R"(count(exam.lesions[histology.type in ("tubular adenoma", "tubulovillous adenoma", "villous adenoma") and size_mm >= 10]))";

inline constexpr std::size_t table_inputs = 6;
inline constexpr std::array<const char*, table_inputs> input_names{"polyps",    "largest_mm", "type",
                                                                   "dysplasia", "removal",    "age"};
inline constexpr std::array<const char*, table_inputs> input_types{"number", "number", "string",
                                                                   "string", "string", "number"};

/// UNIQUE: no two rows match together. The output of row n is n.
inline constexpr std::array<std::array<const char*, table_inputs>, 15> table_rows{{
    {"0", "-", "-", "-", "-", "<= 75"},
    {"0", "-", "-", "-", "-", "> 75"},
    {">= 5", "-", "-", "-", "-", "<= 75"},
    {">= 5", "-", "-", "-", "-", "> 75"},
    {"[1..5)", ">= 20", R"("tubular adenoma", "tubulovillous adenoma", "villous adenoma")", "-",
     R"("piecemeal")", "-"},
    {"[1..5)", ">= 20", R"("tubular adenoma", "tubulovillous adenoma", "villous adenoma")", "-",
     R"("en bloc")", "<= 75"},
    {"[1..5)", ">= 20", R"("tubular adenoma", "tubulovillous adenoma", "villous adenoma")", "-",
     R"("en bloc")", "> 75"},
    {"[1..5)", ">= 20", R"("sessile serrated lesion", "traditional serrated adenoma")", R"("none")", "-",
     "-"},
    {"[1..5)", ">= 20", R"("sessile serrated lesion", "traditional serrated adenoma")", R"(not("none"))", "-",
     "-"},
    {"[1..5)", "[10..20)", "-", R"("high grade")", R"(not("not removed"))", "<= 75"},
    {"[1..5)", "[10..20)", "-", R"("high grade")", R"(not("not removed"))", "> 75"},
    {"[1..5)", "[10..20)", "-", R"("none", "low grade")", R"(not("not removed"))", "-"},
    {"[2..5)", "< 10", "-", R"("high grade")", "-", "-"},
    {"1", "< 10", "-", R"("high grade")", "-", "-"},
    {"[1..5)", "< 10", "-", R"("none", "low grade")", "-", "-"},
}};

struct TableInput {
  std::int64_t polyps, largest_mm;
  const char *type, *dysplasia, *removal;
  std::int64_t age;
};
inline constexpr std::array<TableInput, 8> table_questions{{
    {3, 12, "tubular adenoma", "low grade", "en bloc", 64},
    {1, 4, "hyperplastic polyp", "none", "en bloc", 58},
    {6, 9, "tubular adenoma", "low grade", "en bloc", 70},
    {2, 25, "tubulovillous adenoma", "high grade", "piecemeal", 66},
    {1, 30, "sessile serrated lesion", "low grade", "piecemeal", 72},
    {4, 8, "tubular adenoma", "high grade", "en bloc", 49},
    {0, 0, "none", "none", "none", 80},
    {1, 22, "villous adenoma", "low grade", "en bloc", 77},
}};

}  // namespace bench
