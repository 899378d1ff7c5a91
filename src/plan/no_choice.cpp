#include "plan/no_choice.h"

#include <set>

namespace coatwright {

bool has_no_choice(const ShopContext& context, const ShopModel& model) {
  std::set<const Product*> sprayed;
  for (std::size_t part = 0; part < model.chains.size(); ++part) {
    if (context.shop.parts[part].request.piece.faces == Faces::kTwo) {
      return false;
    }
    const PartChain& chain = *model.chains[part];
    std::set<const Product*> of_part;
    for (const PlacedSession& session : chain.alone.sessions) {
      const WorkItem& work = chain.works[session.work];
      if (work.kind != WorkItem::Kind::kCoat) {
        continue;
      }
      const bool is_one_layout = !work.product->wipe_off && !work.product->mix;
      if (session.options > 1 || !is_one_layout) {
        return false;
      }
      if (may_share(work)) {
        of_part.insert(work.product);
      }
    }
    for (const Product* product : of_part) {
      if (!sprayed.insert(product).second) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace coatwright
