#pragma once

#include "cli/handover_coats.h"
#include "cli/handover_moment.h"

namespace coatwright {

/// The card of a piece. @param parts of finished_parts(); what is to come leaves their logs.
/// Errors: kNo where a coat is neither logged nor planned; kUsage for a handing over before the
/// last coat; from the recipes and the store.
[[nodiscard]] Result<HandoverCard> handover_card(const HandoverRequest& request,
                                                 std::deque<FinishedPart>& parts,
                                                 const RecipeBook& book,
                                                 const Session& session);

}  // namespace coatwright
