#include "plan/coats_to_come.h"

#include <fmt/format.h>

#include "plan/bench_session.h"
#include "plan/progress.h"
#include "plan/work_sequence.h"

namespace coatwright {
namespace {

constexpr double kSlowEnd = 0.9;  // the 90th percentile: a portion must last for a slow hand

const Tool& tool_for(Method method, const ToolChoice& choice, const Application& application) {
  const Tool* chosen = &application.usual_for(method);
  for (const Tool* tool : choice.tools) {
    chosen = tool->method == method ? tool : chosen;
  }
  return *chosen;
}

Area times(Area area, std::size_t count) {
  return Area::from_square_metres(area.square_metres() * static_cast<double>(count));
}

Result<CoatSession> session_on(Area area, const CoatUse& use, const WorkingTimes& working_times) {
  const std::string name = apply_operation(*use.product, use.tool->method);
  const auto found = working_times.find(name);
  if (found == working_times.end()) {
    return fail(ErrorCode::kInputFile,
                fmt::format("recipes/working_times.toml has no operation '{}'", name));
  }
  return CoatSession{area, found->second.duration(area, kSlowEnd)};
}

Result<void> add_sessions(const PieceRequest& piece,
                          std::size_t faces,
                          const WorkingTimes& working_times,
                          CoatUse& use) {
  const bool at_once = piece.faces == Faces::kOnPoints;
  const std::size_t sessions = at_once ? 1 : faces;
  for (std::size_t i = 0; i < sessions; ++i) {
    const auto session = session_on(times(piece.area, at_once ? faces : 1), use, working_times);
    if (!session) {
      return pass_on(session.error());
    }
    use.sessions.push_back(*session);
  }
  return {};
}

CoatUse use_of(const WorkItem& work, const ToolChoice& choice, const Application& application) {
  CoatUse use;
  use.product = work.product;
  use.tool = &tool_for(work.step->method, choice, application);
  use.small_parts = choice.small_parts;
  use.wet_film = work.step->wet_film;
  use.thinning = work.step->thinning;
  return use;
}

}  // namespace

Result<std::vector<CoatUse>> coats_to_come(const PieceRequest& piece,
                                           Time now,
                                           const RecipeBook& book,
                                           const ToolChoice& choice) {
  const auto works = scheduled_works(*piece.schedule, book);
  if (!works) {
    return pass_on(works.error());
  }
  const auto application = book.application();
  if (!application) {
    return pass_on(application.error());
  }
  const auto working_times = book.working_times();
  if (!working_times) {
    return pass_on(working_times.error());
  }
  const Progress progress = progress_of(piece, *works, now);
  std::vector<CoatUse> uses;
  for (std::size_t i = 0; i < works->size(); ++i) {
    const std::size_t faces = progress.faces_left(i).size();
    if ((*works)[i].product == nullptr || faces == 0) {
      continue;
    }
    CoatUse use = use_of((*works)[i], choice, **application);
    use.piece = piece.name;
    use.area = times(piece.area, faces);
    if (const auto added = add_sessions(piece, faces, **working_times, use); !added) {
      return pass_on(added.error());
    }
    uses.push_back(std::move(use));
  }
  return uses;
}

BatchAir warmest_air(const AirRecord& air, Time from, Time to) {
  AirState warmest = air.at(from);
  for (const AirKnot& knot : air.knots(from, to)) {
    const AirState state = air.at(knot.at);
    warmest = state.temperature > warmest.temperature ? state : warmest;
  }
  return {warmest.temperature, warmest.humidity};
}

Result<std::vector<FilmCoats>> film_coats_of(const Schedule& schedule, const RecipeBook& book) {
  std::vector<FilmCoats> coats;
  for (const ScheduleStep& step : schedule.steps) {
    if (step.kind != ScheduleStepKind::kCoat) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error());
    }
    coats.push_back({*product, step.coats, step.wet_film, step.thinning});
  }
  return coats;
}

}  // namespace coatwright
