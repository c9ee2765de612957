// The ordinary record from which representative ones differ, and the findings that they are made of.

#pragma once

#include <vector>

#include "engine/record.h"

namespace engine {

inline constexpr Date ordinary_day{2026, 3, 10};
inline constexpr int ordinary_age = 60;

/// Type and dysplasia: what the pathologist says of a polyp.
struct PolypKind {
  LesionType type{};
  Dysplasia dysplasia{};
};

template <class T>
void put(Fact<T>& fact, T value) {
  fact = Fact<T>::known(value);
}

/// Every type with every grade that the record format gives it.
const std::vector<PolypKind>& polyp_kinds();

/// `number` polyps in the sigmoid colon, removed en bloc, retrieved, with clear margins.
Lesion polyps(int number, PolypKind kind, int millimetres, Segment site = Segment::sigmoid_colon);

/// A complete, well prepared colonoscopy on `day`.
Examination ordinary_examination(const Date& day, std::vector<Lesion> lesions);

/// A woman of 60 with no history; background and settings stated, so that nothing is assumed.
Record ordinary_record(std::vector<Lesion> lesions);

/// The same with the birthday that makes her `age` on the day of the examination.
void make_aged(Record& record, int age);

/// Findings that most guidelines tell apart: what circumstances are tried with.
std::vector<std::vector<Lesion>> common_findings();

}  // namespace engine
