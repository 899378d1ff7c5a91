#include "plan/dust_links.h"

#include <algorithm>

namespace coatwright {
namespace {

class DustLinker {
 public:
  DustLinker(const ShopContext& context, ShopModel& model, std::vector<StartBounds>& bounds)
      : context_(context), lags_(context.lags), model_(model), bounds_(bounds) {
    dust_.name = "dust and wet films";
  }

  void link() {
    for (std::size_t part = 0; part < model_.sessions.size(); ++part) {
      for (std::size_t place = 0; place < model_.sessions[part].size(); ++place) {
        if (model_.sessions[part][place].activity >= 0) {
          add_stretches(part, place);
        }
      }
    }
    for (std::size_t job = 0; job < model_.builds.size(); ++job) {
      for (std::size_t i = 0; i < model_.builds[job].size(); ++i) {
        const int activity = model_.builds[job][i];
        if (activity >= 0 && context_.request.jobs[job].build[i].kind == StepKind::kSand) {
          add_sanding(activity);
        }
      }
    }
    keep_off_logged_films();
    if (!dust_.one_side.empty() && !dust_.other_side.empty()) {
      model_.project.exclusions.push_back(std::move(dust_));
    }
  }

 private:
  void add_sanding(int activity) {
    const Tick length = model_.project.activities[static_cast<std::size_t>(activity)].length;
    dust_.one_side.push_back({activity, 0, {length + kSettlingTicks, {}}});
  }

  void add_stretches(std::size_t part, std::size_t place) {
    const PartChain& chain = *model_.chains[part];
    const PlacedSession& placed = chain.alone.sessions[place];
    const WorkItem& work = chain.works[placed.work];
    const ModelSession& session = model_.sessions[part][place];
    if (sands(work, placed)) {
      add_sanding(session.activity);
    }
    if (const SessionPart* abrading = abrading_of(session.session)) {
      const Tick from = ticks_of(abrading->offset);
      const Tick until = ticks_of(abrading->offset + abrading->length) + kSettlingTicks;
      dust_.one_side.push_back({session.activity, from, {until, {}}});
    }
    if (work.kind == WorkItem::Kind::kCoat) {
      LaidCoat coat;
      coat.product = work.product;
      set_film(coat, *work.step);
      const auto dust_free = coat.timing(Stage::kDustFree);
      const Tick ended = ticks_of(session.session.wet_end);
      dust_.other_side.push_back(
          {session.activity,
           ticks_of(session.session.apply_offset),
           dust_free ? lags_.opening(*dust_free, coat.gate(), ended, 0) : Lag{ended, {}}});
    }
  }

  void not_before(int activity, Tick first) {
    Tick& bound = bounds_[static_cast<std::size_t>(activity)].first;
    bound = std::max(bound, first);
  }

  /// What the logs left wet or dusty keeps every part waiting.
  void keep_off_logged_films() {
    Tick clear = 0;
    Tick settled = 0;
    for (std::size_t part = 0; part < context_.shop.parts.size(); ++part) {
      for (const auto& coat : model_.chains[part]->alone.first_coats) {
        const auto timing = coat && !coat->came_in ? coat->timing(Stage::kDustFree) : std::nullopt;
        clear = timing ? std::max(clear, lags_.opens(*timing, coat->gate(), coat->ended)) : clear;
      }
      if (const auto until = context_.shop.parts[part].progress.sanded_until) {
        settled = std::max(settled, context_.ticks.not_before(*until) + kSettlingTicks);
      }
    }
    for (const Stretch& one : dust_.one_side) {
      not_before(one.activity, clear - one.from);
    }
    for (const Stretch& one : dust_.other_side) {
      not_before(one.activity, settled - one.from);
    }
  }

  const ShopContext& context_;
  StageLags& lags_;
  ShopModel& model_;
  std::vector<StartBounds>& bounds_;
  Exclusion dust_;
};

}  // namespace

const SessionPart* abrading_of(const BenchSession& session) {
  const auto found =
      std::find_if(session.parts.begin(), session.parts.end(), [](const SessionPart& part) {
        return part.kind == StepKind::kAbrade;
      });
  return found == session.parts.end() ? nullptr : &*found;
}

void keep_dust_off_films(const ShopContext& context,
                         ShopModel& model,
                         std::vector<StartBounds>& bounds) {
  DustLinker(context, model, bounds).link();
}

}  // namespace coatwright
