#pragma once

#include "report/handover_sheet.h"

namespace coatwright {

/// A page for the maker: the range, mechanism, air and source behind each day, and how each piece
/// of advice is known.
[[nodiscard]] Sheet handover_basis(const HandoverView& view);

/// "as logged", "by the piece's date" ...
[[nodiscard]] std::string_view name_of(HandoverMoment moment);

}  // namespace coatwright
