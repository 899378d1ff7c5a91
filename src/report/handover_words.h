#pragma once

#include <string>

#include "report/handover_sheet.h"

/// The sentences of a care card.
namespace coatwright {

/// A text that begins with the parts that it is of: "Top, base: water ..."; as it is for the whole
/// piece.
[[nodiscard]] std::string with_parts(const CardFinish& finish, const std::string& text);

/// "Oil wiping stain on Friday 5 March 2027. Nitrocellulose lacquer (spray), 2 coats, from ... to
/// ...".
[[nodiscard]] std::string finish_words(const CardFinish& finish, const Zone& zone);

/// "Use it lightly from Saturday 13 March 2027." @param section kLightUse or kFullUse.
[[nodiscard]] std::string day_words(AftercareSection section,
                                    const CardStage& stage,
                                    const HandoverView& view);

[[nodiscard]] std::string item_words(const CardItem& item);

/// What the days rest on, in two sentences, for the foot of the card.
[[nodiscard]] std::string foot_words(const HandoverView& view);

}  // namespace coatwright
