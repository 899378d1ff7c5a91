#include "plan/booth.h"

#include <algorithm>

namespace coatwright {
namespace {

/// How the schedule puts a product on; its first method where the schedule has it not.
Method method_of(const Product& product, const std::vector<WorkItem>& works) {
  const auto found = std::find_if(works.begin(), works.end(), [&](const WorkItem& work) {
    return work.product != nullptr && work.product->name == product.name;
  });
  return found != works.end() ? found->step->method : product.methods.front();
}

/// What lies there after a use that cleaned nothing.
BoothResidue together(BoothResidue lies, BoothResidue comes) {
  if (lies == BoothResidue::kNone || lies == comes) {
    return comes;
  }
  return comes == BoothResidue::kNone ? lies : BoothResidue::kBoth;
}

}  // namespace

BoothResidue residue_of(const Product& product, Method method) {
  if (method != Method::kSpray) {
    return BoothResidue::kNone;
  }
  if (product.hazards.nitrocellulose) {
    return BoothResidue::kNitrocellulose;
  }
  return product.hazards.rags_self_heat ? BoothResidue::kOil : BoothResidue::kNone;
}

BoothResidue residue_before(const std::vector<BoothUse>& uses, Time at) {
  BoothResidue lies = BoothResidue::kNone;
  for (const BoothUse& use : uses) {
    if (use.start > at) {
      break;
    }
    lies = use.cleans ? BoothResidue::kNone : together(lies, use.leaves);
  }
  return lies;
}

bool ignite_together(BoothResidue lies, BoothResidue comes) {
  return lies != BoothResidue::kNone && comes != BoothResidue::kNone && lies != comes;
}

std::vector<BoothUse> booth_uses_of(const PieceRequest& piece, const std::vector<WorkItem>& works) {
  std::vector<BoothUse> uses;
  for (const LoggedWork& entry : piece.log) {
    if (entry.kind == StepKind::kCleanBooth) {
      uses.push_back({entry.at, entry.at, BoothResidue::kNone, true});
    } else if (entry.kind == StepKind::kApply && !entry.left_out && entry.product != nullptr) {
      const Method method = method_of(*entry.product, works);
      uses.push_back({entry.at, entry.at, residue_of(*entry.product, method), false});
    }
  }
  return uses;
}

}  // namespace coatwright
