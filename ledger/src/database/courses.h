// Reads each person's course.

#pragma once

#include <functional>

#include "engine/result.h"
#include "ledger/ledger.h"
#include "measures/course.h"

namespace ledger {

/// Calls `visit` with the course of everyone who was examined, by person.
engine::Result<engine::Done> each_course(const Ledger& ledger,
                                         const std::function<void(const Course&)>& visit);

}  // namespace ledger
