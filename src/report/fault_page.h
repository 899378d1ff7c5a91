#pragma once

#include <string>
#include <vector>

#include "base/zone.h"
#include "plan/fault_trace.h"

namespace coatwright {

/// A defect of a piece, and what the log shows of where it comes from.
struct FaultAnswer {
  std::string piece;
  std::string part;  ///< Empty: the whole piece.
  std::string face;  ///< Empty: all of them.
  const Defect* defect = nullptr;
  std::size_t coats = 0;          ///< That the log has there.
  std::size_t befallen = 0;       ///< Of those, of products that the defect befalls.
  std::vector<Suspect> suspects;  ///< Most likely first.
};

/// The suspects with how each brings the defect about; what else does; how to mend it and to keep
/// it away. @return plain text, at most 80 columns.
[[nodiscard]] std::string show_fault(const FaultAnswer& answer, const Zone& zone);

/// The same as JSON of the format "coatwright/why/1", as docs/commands/why.md documents it.
[[nodiscard]] std::string fault_as_json(const FaultAnswer& answer, const Zone& zone);

}  // namespace coatwright
