#pragma once

#include <optional>
#include <vector>

#include "scheduling/conflict_search.h"
#include "scheduling/start_domain.h"

namespace coatwright {

/// The starts that are left for each activity, in turn. Where some starts are fixed, those are left
/// out that their lags, their side of an exclusion or what they take of a resource rule out: what
/// is fixed need not be looked at again, but for holds between what is free. An empty domain is a
/// proof that there is no schedule.
[[nodiscard]] std::vector<StartDomain> free_starts(
    SearchTables& tables,
    const CostLimit& limit,
    const std::vector<std::optional<Tick>>& fixed_starts);

}  // namespace coatwright
