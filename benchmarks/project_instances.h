#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "scheduling/project.h"

namespace coatwright {

/// What is published of an instance.
struct PublishedResult {
  enum class Kind { kOptimal, kInfeasible, kOpen };
  Kind kind = Kind::kOpen;
  std::optional<Tick> best_known;  ///< Makespan; the least there is where it is optimal.
};

struct Instance {
  std::filesystem::path file;
  std::string set;  ///< The folder that it lies in.
  PublishedResult published;
};

/// @param folder with one folder per set, and best_known.csv: file, tasks, best known, status.
/// Errors: kInputFile when the list is missing or a row of it cannot be read.
[[nodiscard]] Result<std::vector<Instance>> listed_instances(const std::filesystem::path& folder);

/// Reads a file of ProGen/max as a project on a grain of 1: activity 0 is the source, which starts
/// at 0, and the last one is the sink. Lags from start to start that are negative become maximum
/// lags the other way. Source: [kolisch1998] for the format, [neumann2003] for the lags.
/// Errors: kInputFile.
[[nodiscard]] Result<Project> read_progen_max(const std::filesystem::path& file);

}  // namespace coatwright
