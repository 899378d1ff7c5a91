#pragma once

#include <string>
#include <vector>

#include "cli/printing.h"
#include "cli/safety_job.h"

namespace coatwright {

/// The options of `safety`, as typed; empty: not given.
struct SafetyOptions {
  std::string piece;
  std::string schedule;
  std::vector<std::string> products;
  std::string day;
  std::string per;
  PrintOptions print;
  bool plan = false;
  bool explain = false;

  [[nodiscard]] bool is_of_pieces() const { return schedule.empty() && products.empty(); }
};

/// The sheets that a call asks for. Errors: kUsage for a call that says too much or too little; kNo
/// where nothing is put on that day; of the store and the recipes.
[[nodiscard]] Result<std::vector<SafetyJob>> jobs_of_call(const SafetyOptions& options,
                                                          const RecipeBook& book,
                                                          const Session& session);

/// Errors: kUsage where it means several things at once; nothing is opened for it.
[[nodiscard]] Result<void> check_call(const SafetyOptions& options);

}  // namespace coatwright
