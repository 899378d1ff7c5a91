#pragma once

#include <string>

#include "report/handover_sheet.h"

namespace coatwright {

/// The card as JSON, as docs/commands/handover.md describes it.
[[nodiscard]] std::string handover_as_json(const HandoverView& view);

}  // namespace coatwright
