#pragma once

#include <optional>
#include <vector>

#include "base/time.h"
#include "plan/planner.h"
#include "plan/work_sequence.h"

namespace coatwright {

/// What a sprayed coat leaves in a booth that may ignite with another kind of residue.
/// Source: [osha_1910_107] (g)(6): no alternating use of one booth for such materials unless all
/// deposits are removed; [ifc2018] 2404.7.8.6 names lacquer over varnish and stain.
enum class BoothResidue { kNone, kOil, kNitrocellulose, kBoth };

[[nodiscard]] BoothResidue residue_of(const Product& product, Method method);

/// Something that was or will be done in the booth.
struct BoothUse {
  Time start;
  Time end;
  BoothResidue leaves = BoothResidue::kNone;
  bool cleans = false;  ///< Every deposit out of it, or that was left out with a reason.
};

/// What lies in the booth before a use of it that is not among them; of another that begins at the
/// same moment too. @param uses in order of time.
[[nodiscard]] BoothResidue residue_before(const std::vector<BoothUse>& uses, Time at);

/// Whether a coat may not be sprayed over what lies in the booth.
[[nodiscard]] bool ignite_together(BoothResidue lies, BoothResidue comes);

/// What the log of a piece has of the booth, in order of time. @param works of its schedule.
[[nodiscard]] std::vector<BoothUse> booth_uses_of(const PieceRequest& piece,
                                                  const std::vector<WorkItem>& works);

}  // namespace coatwright
