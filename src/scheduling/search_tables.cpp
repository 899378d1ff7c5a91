#include "scheduling/search_tables.h"

namespace coatwright {

SearchTables::SearchTables(const Project& project) : project_(project) {
  for (const StartSet& set : project.start_sets) {
    numberings_.push_back(std::make_shared<StartNumbering>(set, project.grain, 0, project.horizon));
  }
}

LagMemo* SearchTables::memo(const Lag& lag, int activity) {
  if (!lag.function) {
    return nullptr;
  }
  const int set = project_.activities[static_cast<std::size_t>(activity)].starts;
  return &memos_.try_emplace({lag.function.get(), set}, lag, starts_of(activity)).first->second;
}

}  // namespace coatwright
