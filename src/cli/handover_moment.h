#pragma once

#include <optional>

#include "base/quantity_text.h"
#include "cli/common.h"
#include "plan/handover_card.h"

/// When a piece passes from the shop to a house, and the air that it dries in.
namespace coatwright {

/// What a card is made from, beside what the store has.
struct HandoverRequest {
  const StoredPiece* piece = nullptr;
  std::optional<Time> at;                       ///< When it is handed over; none: as is known.
  std::optional<TemperatureAndHumidity> house;  ///< None: assumed.
};

struct Delivery {
  Time at;
  HandoverMoment moment;
};

/// As asked, else as logged, else as the last plan has it, else by the piece's date if that is to
/// come, else now. Errors: from the store.
[[nodiscard]] Result<Delivery> delivery_of(const HandoverRequest& request,
                                           const std::optional<KeptPlan>& kept,
                                           const Session& session);

/// A delivery that nobody named is not before the last coat. Errors: kUsage where a named one is.
[[nodiscard]] Result<Delivery> not_before(Delivery delivery, Time last, const Session& session);

/// What the shop's air was like from `air.from` until the piece is handed over, for the maker.
void describe_shop_air(const AirRecord& shop, CardAir& air);

}  // namespace coatwright
