#pragma once

#include <string>
#include <vector>

#include "plan/bench_session.h"
#include "plan/work_sequence.h"

namespace coatwright {

/// The sentences that stand with a step whatever the air is.
struct StepTexts {
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};

/// @param species may be null. @param last_under the product beneath, or null on bare wood.
[[nodiscard]] StepTexts texts_of(const SessionPart& part,
                                 const WorkItem& work,
                                 const Species* species,
                                 const Product* last_under);

}  // namespace coatwright
