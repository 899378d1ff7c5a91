#include "plan/plan_coats.h"

#include <algorithm>
#include <utility>

#include "plan/work_sequence.h"
#include "quantity/quantity.h"

namespace coatwright {
namespace {

/// Reads the coats off a plan's steps.
class CoatReader {
 public:
  CoatReader(const std::vector<RoomPart>& parts, const RecipeBook& book) : book_(book) {
    for (const RoomPart& part : parts) {
      parts_.push_back({part, {}});
    }
  }

  /// Errors: from the recipes.
  Result<void> prepare() {
    const auto application = book_.application();
    if (!application) {
      return pass_on(application.error());
    }
    application_ = *application;
    for (auto& [part, works] : parts_) {
      auto of_part = scheduled_works(*part.request->schedule, book_);
      if (!of_part) {
        return pass_on(of_part.error());
      }
      works = std::move(*of_part);
    }
    return {};
  }

  [[nodiscard]] std::vector<CoatOfPlan> coats_of(const Plan& plan) const {
    std::vector<CoatOfPlan> coats;
    for (const PlanStep& step : plan.steps) {
      if (step.kind == StepKind::kApply || step.kind == StepKind::kWipe) {
        add(step, coats);
      }
    }
    std::stable_sort(coats.begin(), coats.end(), [](const auto& a, const auto& b) {
      return a.applied.start < b.applied.start;
    });
    return coats;
  }

 private:
  static bool belongs_to(const PlanStep& step, const CoatOfPlan& coat) {
    return step.piece == coat.piece && step.part == coat.part && step.face == coat.face &&
           step.coat == coat.number && step.product == coat.laid.product->name;
  }

  void add(const PlanStep& step, std::vector<CoatOfPlan>& coats) const {
    const auto found = std::find_if(
        coats.begin(), coats.end(), [&](const CoatOfPlan& coat) { return belongs_to(step, coat); });
    if (found != coats.end()) {
      found->applied.end = std::max(found->applied.end, step.end);
      found->laid.ended = found->applied.end;
      return;
    }
    const auto part = std::find_if(parts_.begin(), parts_.end(), [&](const auto& one) {
      return one.first.piece == step.piece && one.first.part == step.part;
    });
    if (step.kind == StepKind::kApply && part != parts_.end()) {
      add_new(step, *part->first.request, part->second, coats);
    }
  }

  void add_new(const PlanStep& step,
               const PieceRequest& piece,
               const std::vector<WorkItem>& works,
               std::vector<CoatOfPlan>& coats) const {
    const auto work = std::find_if(works.begin(), works.end(), [&](const WorkItem& one) {
      return one.kind == WorkItem::Kind::kCoat && one.coat == step.coat;
    });
    if (work == works.end() || work->product->name != step.product) {
      return;  // logged, and not as the schedule has it
    }
    CoatUse use;
    use.product = work->product;
    use.tool = &application_->usual_for(work->step->method);
    use.wet_film = work->step->wet_film;
    use.thinning = work->step->thinning;
    const CoverRate rate = cover_rate(use);
    const double faces = step.face == "both" ? 2.0 : 1.0;
    CoatOfPlan coat;
    coat.step = step.id;
    coat.done = step.done;
    coat.piece = step.piece;
    coat.part = step.part;
    coat.face = step.face;
    coat.number = step.coat;
    coat.applied = {step.start, step.end};
    coat.laid.product = work->product;
    coat.laid.begun = step.start;
    coat.laid.ended = step.end;
    coat.method = work->step->method;
    set_film(coat.laid, *work->step);
    coat.on_the_wood = rate.on_the_wood.value_or(1.0);
    coat.vapour = vapour_of(*work->product,
                            Volume::from_litres(piece.area.square_metres() * faces / rate.m2_per_l),
                            step.air.temperature);
    coats.push_back(std::move(coat));
  }

  const RecipeBook& book_;
  const Application* application_ = nullptr;
  std::vector<std::pair<RoomPart, std::vector<WorkItem>>> parts_;
};

}  // namespace

Result<std::vector<CoatOfPlan>> coats_of_plan(const Plan& plan,
                                              const std::vector<RoomPart>& parts,
                                              const RecipeBook& book) {
  CoatReader reader(parts, book);
  if (const auto ready = reader.prepare(); !ready) {
    return pass_on(ready.error());
  }
  return reader.coats_of(plan);
}

}  // namespace coatwright
