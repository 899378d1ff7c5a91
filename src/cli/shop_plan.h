#pragma once

#include <optional>

#include "cli/search_watch.h"
#include "cli/shop_request.h"

namespace coatwright {

/// Whether a call is about the shop's work as a whole: no schedule is given, nor what would stand
/// for a stored piece's own, and several pieces are stored, or the one meant has parts or work of
/// its own. Errors: of the store.
[[nodiscard]] Result<bool> is_of_shop(const PlanOptions& options, const Session& session);

/// The shop's request with what the call says of dates and search. Errors: as prepare_shop();
/// --by; kNo for a schedule that is refused.
[[nodiscard]] Result<PreparedShop> shop_of_call(const PlanOptions& options,
                                                const GlobalOptions& global,
                                                const Session& session);

/// A search's time by --at-most; none: not given. Errors: as parse_span().
[[nodiscard]] Result<std::optional<std::chrono::milliseconds>> time_to_search(
    const PlanOptions& options);

/// Plans all stored pieces together, or the parts of one, and prints it.
[[nodiscard]] Result<ExitCode> run_shop_plan(const PlanOptions& options,
                                             const GlobalOptions& global,
                                             const Session& session);

}  // namespace coatwright
