#include "project_instances.h"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace coatwright {
namespace {

/// The numbers of a line; brackets around lags are blanks.
std::vector<int> numbers_of(std::string line) {
  std::replace_if(
      line.begin(), line.end(), [](char sign) { return sign == '[' || sign == ']'; }, ' ');
  std::istringstream stream(line);
  std::vector<int> numbers;
  for (int number = 0; stream >> number;) {
    numbers.push_back(number);
  }
  return numbers;
}

std::vector<std::vector<int>> number_lines(const std::filesystem::path& file) {
  std::ifstream stream(file);
  std::vector<std::vector<int>> lines;
  for (std::string line; std::getline(stream, line);) {
    if (auto numbers = numbers_of(line); !numbers.empty()) {
      lines.push_back(std::move(numbers));
    }
  }
  return lines;
}

std::vector<std::string> cells_of(const std::string& line) {
  std::istringstream stream(line);
  std::vector<std::string> cells;
  for (std::string cell; std::getline(stream, cell, ',');) {
    cells.push_back(cell);
  }
  return cells;
}

void add_lag(Project& project, int from, int to, Tick lag) {
  if (lag < 0) {
    project.max_lags.push_back({to, from, Lag{-lag}});
  } else {
    project.min_lags.push_back({from, to, Lag{lag}});
  }
}

/// Number, modes, count of successors, successors, lags.
bool add_successors(Project& project, const std::vector<int>& line) {
  const std::size_t count = line.size() > 2 ? static_cast<std::size_t>(line[2]) : 0;
  if (line.size() != 3 + 2 * count) {
    return false;
  }
  for (std::size_t i = 3; i < 3 + count; ++i) {
    add_lag(project, line[0], line[i], line[i + count]);
  }
  return true;
}

/// Number, mode, duration, demand of each resource.
bool add_work(Project& project, const std::vector<int>& line, std::size_t resources) {
  if (line.size() != 3 + resources || line[0] != static_cast<int>(project.activities.size())) {
    return false;
  }
  Activity activity{"activity " + std::to_string(line[0]), line[2], {}, 1};
  for (std::size_t i = 0; i < resources; ++i) {
    if (line[3 + i] > 0) {
      activity.demands.push_back({static_cast<int>(i), line[3 + i], 0, line[2]});
    }
  }
  project.activities.push_back(std::move(activity));
  return true;
}

/// Late enough for all activities, one after the other with their longest lags.
Tick horizon_of(const Project& project) {
  std::vector<Tick> longest;
  for (const Activity& activity : project.activities) {
    longest.push_back(activity.length);
  }
  for (const MinLag& rule : project.min_lags) {
    Tick& one = longest[static_cast<std::size_t>(rule.from)];
    one = std::max(one, rule.lag.constant);
  }
  Tick sum = 0;
  for (const Tick one : longest) {
    sum += one;
  }
  return sum;
}

bool fill(Project& project, const std::vector<std::vector<int>>& lines) {
  if (lines.empty() || lines[0].size() < 2) {
    return false;
  }
  const std::size_t count = static_cast<std::size_t>(lines[0][0]) + 2;
  const auto resources = static_cast<std::size_t>(lines[0][1]);
  if (lines.size() != 2 * count + 2 || lines.back().size() != resources) {
    return false;
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (!add_successors(project, lines[1 + i]) ||
        !add_work(project, lines[1 + count + i], resources)) {
      return false;
    }
  }
  for (std::size_t i = 0; i < resources; ++i) {
    project.resources.push_back({"resource " + std::to_string(i), {{0, lines.back()[i]}}});
  }
  return true;
}

PublishedResult published_of(const std::string& best_known, const std::string& status) {
  if (status == "infeasible") {
    return {PublishedResult::Kind::kInfeasible, std::nullopt};
  }
  return {status == "optimal" ? PublishedResult::Kind::kOptimal : PublishedResult::Kind::kOpen,
          std::stoi(best_known)};
}

}  // namespace

Result<std::vector<Instance>> listed_instances(const std::filesystem::path& folder) {
  std::ifstream stream(folder / "best_known.csv");
  if (!stream) {
    return fail(ErrorCode::kInputFile, "no best_known.csv in " + folder.string());
  }
  std::vector<Instance> instances;
  std::string line;
  std::getline(stream, line);  // the heading
  while (std::getline(stream, line)) {
    const auto cells = cells_of(line);
    if (cells.size() < 4) {
      return fail(ErrorCode::kInputFile, "best_known.csv: a row of too few cells: " + line);
    }
    const std::filesystem::path file = folder / cells[0];
    instances.push_back(
        {file, file.parent_path().filename().string(), published_of(cells[2], cells[3])});
  }
  return instances;
}

Result<Project> read_progen_max(const std::filesystem::path& file) {
  Project project;
  if (!fill(project, number_lines(file))) {
    return fail(ErrorCode::kInputFile, "not a file of ProGen/max: " + file.string());
  }
  project.horizon = horizon_of(project);
  project.start_sets = {{{{0, 0}}}, {{{0, project.horizon}}}};
  project.activities.front().starts = 0;
  return project;
}

}  // namespace coatwright
