#include "plan/piece_state.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {

StageTiming LaidCoat::adapted(const StageTiming& timing) const {
  const StageTiming for_film = timing.for_film(film_ratio);
  return thinning ? thinning->applied_to(for_film) : for_film;
}

void set_film(LaidCoat& coat, const ScheduleStep& step) {
  coat.film_ratio = film_ratio_of(step, *coat.product);
  coat.thinning = step.thinning;
}

std::optional<StageTiming> LaidCoat::timing(Stage stage) const {
  const DryingStage* found = product->stage(stage);
  if (found == nullptr) {
    return std::nullopt;
  }
  return adapted(found->timing);
}

std::optional<Time> LaidCoat::past_critical_stage(DryingClocks& clocks,
                                                  const WaitRule& rule) const {
  const auto critical = timing(product->limits.critical_stage);
  return critical ? since_end(clocks).opens(*critical, rule.deviate, rule.horizon)
                  : std::optional(ended);
}

std::optional<Temperature> LaidCoat::gate() const {
  const auto& minimum = product->limits.temperature_min;
  return minimum ? std::optional(minimum->value) : std::nullopt;
}

double film_ratio_of(const ScheduleStep& step, const Product& product) {
  const auto& reference = product.film.reference_wet;
  if (!step.wet_film || !reference) {
    return 1.0;
  }
  return step.wet_film->micrometres() / reference->value.micrometres();
}

std::vector<int> PieceState::every_face() const {
  std::vector<int> faces;
  for (std::size_t i = 0; i < last_coats.size(); ++i) {
    faces.push_back(static_cast<int>(i));
  }
  return faces;
}

Result<Time> PieceState::all_reached(Stage stage,
                                     const std::vector<int>& faces,
                                     DryingClocks& clocks,
                                     const WaitRule& rule) const {
  Time latest = cursor;
  for (const int face : faces) {
    const auto& coat = on(face);
    const auto timing = coat ? coat->timing(stage) : std::nullopt;
    if (!timing) {
      continue;
    }
    const auto at = coat->since_end(clocks).opens(*timing, rule.deviate, rule.horizon);
    if (!at) {
      return fail(ErrorCode::kNo, never_dries(*coat, stage));
    }
    latest = std::max(latest, *at);
  }
  return latest;
}

std::chrono::seconds wipe_closes(const Product& product, Time at, DryingClocks& clocks) {
  if (!product.wipe_off) {
    return std::chrono::seconds(0);
  }
  const WipeOff& wipe = *product.wipe_off;
  const std::chrono::seconds label(std::llround(wipe.closes.hours() * 3600.0));
  const auto by_clock =
      clocks.of(wipe.closing_law, std::nullopt).reached(at, wipe.closes, at + label);
  return by_clock ? *by_clock - at : label;
}

std::string never_dries(const LaidCoat& coat, Stage stage) {
  std::string text = fmt::format(
      "{} does not come to '{}' before the plan is given up", coat.product->title, name_of(stage));
  if (const auto gate = coat.gate()) {
    text += fmt::format("; below its minimum of {:.0f} C ({:.0f} F) no drying is credited",
                        gate->celsius(),
                        gate->fahrenheit());
  }
  return text;
}

}  // namespace coatwright
