#include "plan/shop_planner.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "plan/allowed_starts.h"
#include "plan/critical_links.h"
#include "plan/plan_changes.h"
#include "plan/plan_facts.h"
#include "plan/preparations.h"
#include "plan/room_plan.h"
#include "plan/shop_bounds.h"
#include "plan/shop_chance.h"
#include "plan/shop_hold_ups.h"
#include "plan/shop_search.h"
#include "recipe/schedule_check.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

std::string_view name_of(StoppedBy stopped_by) {
  switch (stopped_by) {
    case StoppedBy::kProof:
      return "proof";
    case StoppedBy::kClock:
      return "clock";
    case StoppedBy::kBudget:
      break;
  }
  return "budget";
}

/// Each text once, in the order in which they first stand.
std::string joined(const std::vector<std::string>& texts) {
  std::set<std::string> seen;
  std::string all;
  for (const std::string& text : texts) {
    if (!text.empty() && seen.insert(text).second) {
      all += (all.empty() ? "" : ", ") + text;
    }
  }
  return all;
}

PlanPiece piece_of(const JobRequest& job) {
  PlanPiece piece;
  piece.name = job.name;
  piece.due = job.due;
  piece.weight = job.weight;
  std::vector<std::string> species;
  std::vector<std::string> schedules;
  double square_metres = 0.0;
  for (const PartRequest& part : job.parts) {
    const PieceRequest& finish = part.finish;
    species.push_back(finish.species == nullptr ? "" : finish.species->title);
    schedules.push_back(finish.schedule->name);
    square_metres += finish.area.square_metres();
    piece.faces = std::max(piece.faces, finish.faces == Faces::kOne ? 1 : 2);
    piece.on_points = piece.on_points || finish.faces == Faces::kOnPoints;
    piece.parts.push_back(part.name);
  }
  piece.species = joined(species);
  piece.schedule = joined(schedules);
  piece.area = Area::from_square_metres(square_metres);
  return piece;
}

/// Starts that the bounds may look at for each node of the search: about a tenth of its time.
constexpr std::int64_t kBoundEffortPerNode = 1000;
/// Nodes of the search behind a sketch.
constexpr std::int64_t kSketchEffort = 3000;

class ShopPlanner {
 public:
  ShopPlanner(const ShopRequest& request, const RecipeBook& book, const AirRecord& air)
      : request_(request),
        book_(book),
        air_(air),
        clocks_(air, first_moment(request)),
        rule_{normal_deviate(request.confidence), request.horizon},
        ticks_(request.from),
        lags_(clocks_, rule_, request.confidence, ticks_),
        for_work_(clocks_, rule_, ticks_) {}

  Result<Plan> plan(const SearchWatch& watch, const Plan* before) {
    begin_plan();
    auto shop = parts_of(request_, book_, clocks_);
    if (!shop) {
      return pass_on(shop.error());
    }
    const auto forbidden = ignition_forbids(request_.resources.room, room_parts_of(*shop), book_);
    if (!forbidden) {
      return pass_on(forbidden.error());
    }
    if (!forbidden->empty()) {
      refuse_plan(*forbidden, plan_);
      return std::move(plan_);
    }
    const ShopContext context{request_, *shop, book_, clocks_, lags_, for_work_, ticks_};
    auto searched = search_shop(context, watch, before);
    if (!searched) {
      return pass_on(searched.error());
    }
    plan_.search = {request_.seed, searched->nodes, std::string(name_of(searched->stopped_by))};
    if (searched->found) {
      add_reasons(context, *searched->found);
      take(*searched->found);
      add_chances(*searched->found, watch);
      add_shop_hold_ups(searched->found->model.stopped_by, plan_);
    } else {
      plan_.hold_ups.push_back({searched->why_not, seconds(0)});
    }
    if (const auto bounded = add_bounds(context, *searched, watch); !bounded) {
      return pass_on(bounded.error());
    }
    if (const auto added = add_facts(*shop, searched->found); !added) {
      return pass_on(added.error());
    }
    if (before != nullptr) {
      plan_.changes = changes_since(kept_plan_of(*before), plan_);
    }
    return std::move(plan_);
  }

  Result<Plan> sketch(const SearchWatch& watch) {
    begin_plan();
    const auto shop = parts_of(request_, book_, clocks_);
    if (!shop) {
      return pass_on(shop.error());
    }
    const ShopContext context{request_, *shop, book_, clocks_, lags_, for_work_, ticks_};
    auto searched = search_shop(context, watch, nullptr);
    if (!searched) {
      return pass_on(searched.error());
    }
    if (searched->found) {
      take(*searched->found);
    }
    return std::move(plan_);
  }

  /// An error leaves it open.
  bool may_meet_dates() {
    const auto shop = parts_of(request_, book_, clocks_);
    if (!shop) {
      return true;
    }
    const ShopContext context{request_, *shop, book_, clocks_, lags_, for_work_, ticks_};
    return coatwright::may_meet_dates(context).value_or(true);
  }

 private:
  void add_reasons(const ShopContext& context, const FoundShop& found) {
    PlanReasons reasons = reasons_of(context, found);
    for (std::size_t i = 0; i < plan_.pieces.size(); ++i) {
      plan_.pieces[i].critical = std::move(reasons.by_job[i]);
    }
    plan_.shortages = std::move(reasons.shortages);
    plan_.shared_waits = std::move(reasons.shared_waits);
  }

  void add_chances(const FoundShop& found, const SearchWatch& watch) {
    std::vector<bool> in_time;
    for (const PlanPiece& piece : plan_.pieces) {
      in_time.push_back(piece.finish && piece.late == seconds(0));
    }
    const ShopChances chances = chances_by_dates(request_, found, in_time, book_, air_, watch.stop);
    plan_.chance = chances.all;
    for (std::size_t i = 0; i < plan_.pieces.size(); ++i) {
      if (plan_.pieces[i].due) {
        plan_.pieces[i].chance = chances.by_job[i];
      }
    }
  }

  void begin_plan() {
    plan_.made_at = request_.made_at;
    plan_.from = request_.from;
    plan_.by = request_.from;
    plan_.confidence = request_.confidence;
    plan_.hours = openings_of(request_.hours);
    for (const JobRequest& job : request_.jobs) {
      plan_.pieces.push_back(piece_of(job));
      plan_.by = std::max(plan_.by, job.due.value_or(request_.horizon));
    }
  }

  void take(FoundShop& found) {
    plan_.complete = true;
    plan_.fits = true;
    Time finish = request_.from;
    for (std::size_t i = 0; i < plan_.pieces.size(); ++i) {
      PlanPiece& piece = plan_.pieces[i];
      piece.finish = found.written.ends[i];
      plan_.complete = plan_.complete && piece.finish;
      if (piece.finish && piece.due) {
        piece.late = std::max(seconds(0), *piece.finish - *piece.due);
      }
      plan_.fits = plan_.fits && piece.finish && piece.late == seconds(0);
      finish =
          i == 0 ? piece.finish.value_or(finish) : std::max(finish, piece.finish.value_or(finish));
    }
    if (plan_.complete && !plan_.pieces.empty()) {
      plan_.finish = finish;
    }
    plan_.steps = std::move(found.written.steps);
  }

  /// No plan ends before each part alone could, nor before what all plans have in common can.
  /// Proven is only what no other choice could better.
  Result<void> add_bounds(const ShopContext& context,
                          const ShopSearchResult& searched,
                          const SearchWatch& watch) {
    if (!searched.found || !plan_.complete) {
      plan_.search.stopped_by =
          plan_.search.stopped_by == "proof" ? "budget" : plan_.search.stopped_by;
      return {};
    }
    const FoundShop& found = *searched.found;
    const auto bounds = bounds_of_plans(
        context, found, kBoundEffortPerNode * request_.effort, watch.stop, plan_.search.nodes);
    if (!bounds) {
      return pass_on(bounds.error());
    }
    const Time latest = ticks_.time(std::max(bounds->end, searched.end_bound.value_or(0)));
    if (latest <= *plan_.finish) {
      plan_.bound = latest;
    }
    add_lateness(found.cost.lateness, bounds->lateness);
    const bool is_best = plan_.finish == plan_.bound && found.cost.lateness <= bounds->lateness;
    if (plan_.search.stopped_by == "proof" && !searched.end_bound && !is_best) {
      plan_.search.stopped_by = "budget";
    } else if (is_best) {
      plan_.search.stopped_by = "proof";
    }
    return {};
  }

  /// @param weighted and @param bound in ticks times the weights of the project.
  void add_lateness(std::int64_t weighted, std::int64_t bound) {
    const auto span_of = [](std::int64_t ticks) {
      return seconds(std::chrono::minutes(ticks)) / kWeightScale;
    };
    if (weighted > 0) {
      plan_.lateness = PlanLateness{span_of(weighted), span_of(std::min(weighted, bound))};
    }
  }

  Result<void> add_facts(const ShopParts& shop, const std::optional<FoundShop>& found) {
    std::vector<const PieceRequest*> pieces;
    for (const ShopPart& part : shop.parts) {
      pieces.push_back(&part.request.piece);
    }
    add_warnings(shop, found);
    if (auto added = add_quantities(pieces, book_, air_, plan_); !added) {
      return added;
    }
    if (auto added = add_rates(pieces, book_, plan_); !added) {
      return added;
    }
    if (auto added = add_revisions(book_, plan_); !added) {
      return added;
    }
    auto preparations = preparations_of(plan_, book_);
    if (!preparations) {
      return pass_on(preparations.error());
    }
    plan_.preparations = std::move(*preparations);
    for (std::size_t i = 0; found && i < shop.parts.size(); ++i) {
      const Chain& chain = found->written.chains[i];
      if (chain.finish) {
        add_milestones({shop.parts[i].request.piece.name,
                        shop.parts[i].name,
                        chain.last_coats,
                        request_.confidence},
                       clocks_,
                       plan_);
      }
    }
    if (auto added = add_room(
            request_.resources.room, room_parts_of(shop), request_.hours, book_, clocks_, plan_);
        !added) {
      return added;
    }
    plan_.air = air_of(air_, plan_);
    return {};
  }

  static std::vector<RoomPart> room_parts_of(const ShopParts& shop) {
    std::vector<RoomPart> parts;
    for (const ShopPart& part : shop.parts) {
      parts.push_back({part.request.piece.name, part.name, &part.request.piece});
    }
    return parts;
  }

  void add_warnings(const ShopParts& shop, const std::optional<FoundShop>& found) {
    add_air_warnings(air_, plan_);
    std::set<std::string> grits;
    for (const ShopPart& part : shop.parts) {
      const std::size_t first = plan_.warnings.size();
      add_wood_warning(part.request.piece, air_, plan_);
      for (std::size_t i = first; i < plan_.warnings.size(); ++i) {
        PlanWarning& warning = plan_.warnings[i];
        warning.text = fmt::format("{}: {}", part.request.piece.name, warning.text);
      }
      for (const GritFinding& finding : check_grits(*part.request.piece.schedule)) {
        if (grits.insert(finding.remark.text()).second) {
          plan_.warnings.push_back({"grit-jump", finding.remark.text(), std::nullopt});
        }
      }
    }
    if (found) {
      const auto& warnings = found->written.warnings;
      plan_.warnings.insert(plan_.warnings.end(), warnings.begin(), warnings.end());
    }
    for (const JobRequest& job : request_.jobs) {
      for (const BuildWork& work : job.build) {
        if (!work.done_at && !fits_open_time(work)) {
          plan_.warnings.push_back(
              {"open-time",
               fmt::format("{}: {} takes {:.0f} minutes, and {} may lie open for {:.0f}: spread "
                           "and close it joint by joint.",
                           job.name,
                           work.name,
                           work.work.minutes(),
                           work.glue->title,
                           work.glue->open_low.minutes()),
               std::nullopt});
        }
      }
    }
  }

  const ShopRequest& request_;
  const RecipeBook& book_;
  const AirRecord& air_;
  DryingClocks clocks_;
  WaitRule rule_;
  TickScale ticks_;
  StageLags lags_;
  AirForWork for_work_;
  Plan plan_;
};

}  // namespace

Result<Plan> make_shop_plan(const ShopRequest& request,
                            const RecipeBook& book,
                            const AirRecord& air,
                            const SearchWatch& watch,
                            const Plan* before) {
  return ShopPlanner(request, book, air).plan(watch, before);
}

Result<Plan> sketch_shop_plan(const ShopRequest& request,
                              const RecipeBook& book,
                              const AirRecord& air,
                              const SearchWatch& watch) {
  ShopRequest sketched = request;
  sketched.effort = std::min(request.effort, kSketchEffort);
  sketched.only_dates = true;
  return ShopPlanner(sketched, book, air).sketch(watch);
}

bool may_meet_dates(const ShopRequest& request, const RecipeBook& book, const AirRecord& air) {
  return ShopPlanner(request, book, air).may_meet_dates();
}

}  // namespace coatwright
