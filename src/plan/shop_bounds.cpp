#include "plan/shop_bounds.h"

#include <algorithm>

#include "plan/best_chain.h"
#include "plan/due_dates.h"
#include "scheduling/windows.h"

namespace coatwright {
namespace {

/// By part, one for each order of turning over.
using BoundingChains = std::vector<std::vector<PartChain>>;

Result<BoundingChains> bounding_chains_of(const ShopContext& context, std::int64_t& placements) {
  BoundingChains alone;
  for (const ShopPart& part : context.shop.parts) {
    auto chains = bounding_chains(part.request, context.book, context.clocks, placements);
    if (!chains) {
      return pass_on(chains.error());
    }
    alone.push_back(std::move(*chains));
  }
  return alone;
}

/// What comes before the first coat of a part, no sooner than it may begin in the shop: after a
/// glue-up, for one. The orders of turning over have it in common.
Prescription before_first_coat(const ShopContext& context,
                               const ShopModel& common,
                               const Windows& windows,
                               std::size_t part) {
  Prescription prescription;
  prescription.open_from = context.shop.parts[part].open_from;
  const PartChain& chain = *common.chains[part];
  for (std::size_t place = 0; place < common.sessions[part].size(); ++place) {
    const int activity = common.sessions[part][place].activity;
    const WorkItem& work = chain.works[chain.alone.sessions[place].work];
    if (work.kind == WorkItem::Kind::kCoat || activity < 0) {
      break;
    }
    prescription.sessions.push_back(
        {context.ticks.time(windows.low(activity)), std::nullopt, std::nullopt});
  }
  return prescription;
}

/// The chains of parts that are glued up or worked on before their finishing wait for that.
/// @param common made with `alone`. @return whether any chain is another now.
Result<bool> begin_after_builds(const ShopContext& context,
                                const ShopModel& common,
                                BoundingChains& alone,
                                std::int64_t& placements) {
  const LagNetwork network(common.project);
  Windows windows(network);
  if (!windows.propagate()) {
    return false;
  }
  bool any = false;
  for (std::size_t i = 0; i < alone.size(); ++i) {
    const Prescription prescription = before_first_coat(context, common, windows, i);
    const auto& placed = alone[i].front().alone.sessions;
    bool waits = false;
    for (std::size_t k = 0; k < std::min(placed.size(), prescription.sessions.size()); ++k) {
      waits = waits || placed[k].start < prescription.sessions[k].not_before;
    }
    if (!waits) {
      continue;
    }
    auto chains = bounding_chains(
        context.shop.parts[i].request, context.book, context.clocks, placements, &prescription);
    if (!chains) {
      return pass_on(chains.error());
    }
    alone[i] = std::move(*chains);
    any = true;
  }
  return any;
}

/// What all plans of a shop have in common, and the chains that bound its parts.
struct InCommon {
  ShopModel model;
  BoundingChains alone;
};

Result<InCommon> in_common_of(const ShopContext& context,
                              const PartChains& chains,
                              BoundingChains alone,
                              Time asked_until,
                              std::int64_t& placements) {
  auto model = relaxed(context, chains, alone, asked_until);
  if (!model) {
    return pass_on(model.error());
  }
  const auto changed = begin_after_builds(context, *model, alone, placements);
  if (!changed) {
    return pass_on(changed.error());
  }
  if (*changed) {
    model = relaxed(context, chains, alone, asked_until);
    if (!model) {
      return pass_on(model.error());
    }
  }
  return InCommon{std::move(*model), std::move(alone)};
}

/// Of the part that ends last, in its best order.
Tick least_end_of(BoundingChains& alone, TickScale ticks) {
  Tick latest = 0;
  for (std::vector<PartChain>& chains : alone) {
    if (const auto& finish = best_of(chains).alone.finish) {
      latest = std::max(latest, ticks.not_after(*finish));
    }
  }
  return latest;
}

}  // namespace

Result<ProjectBounds> bounds_of_plans(const ShopContext& context,
                                      const FoundShop& found,
                                      std::int64_t effort,
                                      const std::function<bool()>& stop,
                                      std::int64_t& placements) {
  auto alone = bounding_chains_of(context, placements);
  if (!alone) {
    return pass_on(alone.error());
  }
  const Time last = context.ticks.time(found.model.project.horizon);
  auto common = in_common_of(context, found.model.chains, std::move(*alone), last, placements);
  if (!common) {
    return pass_on(common.error());
  }
  const ProjectBounds known{found.cost.lateness, found.cost.end};
  ProjectBounds bounds =
      bounds_of(common->model.project, known, effort, stop).value_or(ProjectBounds{});
  bounds.end =
      std::min(known.end, std::max(bounds.end, least_end_of(common->alone, context.ticks)));
  return bounds;
}

Result<bool> may_meet_dates(const ShopContext& context) {
  std::int64_t placements = 0;
  auto alone = bounding_chains_of(context, placements);
  if (!alone) {
    return pass_on(alone.error());
  }
  PartChains chains;
  for (std::vector<PartChain>& of_part : *alone) {
    if (best_of(of_part).alone.stopped_by) {
      return true;
    }
    chains.push_back(std::make_shared<PartChain>(best_of(of_part)));
  }
  const auto common =
      in_common_of(context, chains, std::move(*alone), last_due_of(context.request), placements);
  if (!common) {
    return pass_on(common.error());
  }
  return may_be_in_time(common->model.project);
}

}  // namespace coatwright
