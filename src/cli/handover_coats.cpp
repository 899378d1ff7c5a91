#include "cli/handover_coats.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/plan_request.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr double kConfidence = 0.9;

/// A coat of the schedule that is not logged on a face.
struct ComingCoat {
  const WorkItem* work;
  int face;
};

std::vector<ComingCoat> coming_coats(const std::vector<WorkItem>& works, const Progress& progress) {
  std::vector<ComingCoat> coats;
  for (std::size_t i = 0; i < works.size(); ++i) {
    if (works[i].kind != WorkItem::Kind::kCoat) {
      continue;
    }
    for (const int face : progress.faces_left(i)) {
      coats.push_back({&works[i], face});
    }
  }
  return coats;
}

PieceFaces stored_faces(Faces faces) {
  return faces == Faces::kOne   ? PieceFaces::kOne
         : faces == Faces::kTwo ? PieceFaces::kTwo
                                : PieceFaces::kOnPoints;
}

/// The planned start of a coat that is still to come; null where the plan does not have it ahead.
const KeptStep* planned_step(const ComingCoat& coat,
                             const FinishedPart& part,
                             const KeptPlan& kept,
                             Time now) {
  const auto is_meant = [&](const KeptStep& step) {
    const auto faces = faces_by_number(step.face, stored_faces(part.request.faces));
    return step.kind == StepKind::kApply && step.start > now &&
           step.product == coat.work->product->name && step.coat == coat.work->coat &&
           (step.part.empty() || step.part == part.name) &&
           std::find(faces.begin(), faces.end(), coat.face) != faces.end();
  };
  const auto step = std::find_if(kept.steps.begin(), kept.steps.end(), is_meant);
  return step == kept.steps.end() ? nullptr : &*step;
}

/// A plan keeps the start of a session; the last stroke is later by no more than the work takes.
seconds length_of_coat(const WorkItem& work, const PieceRequest& piece, const WorkingTimes& times) {
  // The slowest way of coating that the table has, so that no day is named too early.
  const double faces = piece.faces == Faces::kOnPoints ? 2.0 : 1.0;
  const Area area = Area::from_square_metres(piece.area.square_metres() * faces);
  double hours = 0;
  for (const char* name :
       {"brush", "pad", "spray", "wipe-oil-apply", "wipe-varnish", "wax-apply"}) {
    if (const auto found = times.find(name); found != times.end()) {
      hours = std::max(hours, found->second.duration(area, kConfidence).hours());
    }
  }
  const Hours wipe = work.product->wipe_off ? work.product->wipe_off->closes : Hours::from_hours(0);
  return std::chrono::ceil<seconds>(
      std::chrono::duration<double, std::ratio<3600>>(hours + wipe.hours()));
}

LoggedWork as_logged(const ComingCoat& coat, Time at) {
  LoggedWork work;
  work.kind = StepKind::kApply;
  work.faces = {coat.face};
  work.product = coat.work->product;
  work.product_name = coat.work->product->name;
  work.at = at;
  return work;
}

std::string coat_words(const ComingCoat& coat, const FinishedPart& part) {
  return fmt::format(
      "{} on {}, coat {}", coat.work->product->name, part.shown_name, coat.work->coat);
}

/// Takes the coats to come from the plan, all of them or none.
void add_planned(const std::vector<ComingCoat>& coming,
                 const std::optional<KeptPlan>& kept,
                 const WorkingTimes& times,
                 Time now,
                 FinishedPart& part,
                 std::vector<std::string>& missing) {
  std::vector<LoggedWork> planned;
  for (const ComingCoat& coat : coming) {
    const KeptStep* step = kept ? planned_step(coat, part, *kept, now) : nullptr;
    if (step == nullptr) {
      const std::string words = coat_words(coat, part);
      if (std::find(missing.begin(), missing.end(), words) == missing.end()) {
        missing.push_back(words);
      }
      continue;
    }
    planned.push_back(
        as_logged(coat, step->start + length_of_coat(*coat.work, part.request, times)));
  }
  if (missing.empty()) {
    std::stable_sort(
        planned.begin(), planned.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    auto& log = part.request.log;
    log.insert(log.end(), planned.begin(), planned.end());
  }
}

Result<PartWithCoats> coated_part(FinishedPart& part,
                                  const std::optional<KeptPlan>& kept,
                                  const RecipeBook& book,
                                  Time now) {
  const auto works = scheduled_works(*part.request.schedule, book);
  if (!works) {
    return pass_on(works.error());
  }
  const auto times = book.working_times();
  if (!times) {
    return pass_on(times.error());
  }
  std::erase_if(part.request.log, [now](const LoggedWork& work) { return work.at > now; });
  settle_existing_finish(now, part.request);
  PartWithCoats coated{&part, progress_of(part.request, *works, now), {}, part.request.log.size()};
  const auto coming = coming_coats(*works, coated.progress);
  if (!coming.empty()) {
    add_planned(coming, kept, **times, now, part, coated.missing);
  }
  if (part.request.log.size() > coated.logged) {
    auto warnings = std::move(coated.progress.warnings);  // of what is logged alone
    coated.progress = progress_of(part.request, *works, Time::max());
    coated.progress.warnings = std::move(warnings);
  }
  if (const auto& wipe = coated.progress.wipe) {
    // Nobody knows when it will be wiped: at the latest, so that no day is named too early.
    for (const int face : wipe->faces) {
      LaidCoat& coat = coated.progress.coats_on[static_cast<std::size_t>(face)].back();
      coat.ended = std::max(coat.ended, wipe->closes);
    }
  }
  return coated;
}

}  // namespace

Result<std::vector<PartWithCoats>> coated_parts(std::deque<FinishedPart>& parts,
                                                const std::optional<KeptPlan>& kept,
                                                const RecipeBook& book,
                                                Time now) {
  std::vector<PartWithCoats> all;
  for (FinishedPart& part : parts) {
    auto coated = coated_part(part, kept, book, now);
    if (!coated) {
      return pass_on(coated.error());
    }
    all.push_back(std::move(*coated));
  }
  return all;
}

}  // namespace coatwright
