#include "plan/step_writer.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "air/surface.h"
#include "plan/step_texts.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

// Unfavourable air is looked for from the first stroke until the film has set.
constexpr std::chrono::minutes kSettingWatched{30};

bool is_in_booth(const SessionPart& part, const WorkItem& work) {
  return work.step != nullptr && work.product != nullptr && work.step->method == Method::kSpray &&
         (part.kind == StepKind::kApply || part.kind == StepKind::kCleanGun);
}

/// A wait that opens by the clock on the wall and closes by a law.
Wait wait_by_the_clock(const PlanStep& step, Time since, Hours opens, const RateLaw& closing) {
  Wait wait;
  wait.mechanism = "clock time; closes by " + closing.description();
  wait.since = since;
  wait.opens_at = since + seconds(std::llround(opens.hours() * 3600.0));
  wait.needed = opens;
  wait.earned = Hours::from_seconds(step.start - since);
  wait.condition = "none";
  return wait;
}

}  // namespace

PlanStep& StepWriter::write(const SessionPart& part,
                            Time start,
                            const WorkItem& work,
                            const Product* under) {
  PlanStep step;
  step.id = next_id_++;
  step.piece = request_.piece.name;
  step.part = "all";
  step.face = face_name(work.faces);
  step.kind = part.kind;
  step.grit = part.grit;
  step.start = start;
  step.end = start + part.length;
  step.work_source = part.work_source;
  step.spray_places = is_in_booth(part, work) ? 1 : 0;
  step.benches = is_in_booth(part, work) ? 0 : 1;
  // Dust is taken off for a coat, but is no work with its product; cleaning the brush is.
  const bool with_product = part.kind != StepKind::kClean || part.cleans_tools;
  if (work.product != nullptr && with_product) {
    step.product = work.product->name;
    step.product_title = work.product->title;
    step.coat = work.coat;
    const bool with_tool = part.kind == StepKind::kApply || part.kind == StepKind::kMix;
    step.method = with_tool ? std::string(name_of(work.step->method)) : "";
  }
  step.air = clocks_.air().at(start);
  step.surface = surface_temperature(clocks_.air(), start);
  StepTexts texts = texts_of(part, work, request_.piece.species, under);
  for (std::string& note : texts.notes) {
    add_note(step, std::move(note));
  }
  step.cautions = std::move(texts.cautions);
  steps_.push_back(std::move(step));
  return steps_.back();
}

void StepWriter::write_log(const Progress& progress) {
  for (std::size_t i = 0; i < request_.piece.log.size(); ++i) {
    const LoggedWork& entry = request_.piece.log[i];
    PlanStep step;
    step.id = next_id_++;
    step.piece = request_.piece.name;
    step.part = "all";
    step.face = face_name(entry.faces);
    step.kind = entry.kind;
    step.product = entry.product_name;
    step.product_title = entry.product == nullptr ? entry.product_name : entry.product->title;
    step.coat = progress.coats[i];
    step.grit = entry.grit;
    step.start = entry.at;
    step.end = entry.at;
    step.people = 0;
    step.done = !entry.left_out;
    step.air = clocks_.air().at(entry.at);
    step.surface = surface_temperature(clocks_.air(), entry.at);
    if (!entry.left_out) {
      steps_.push_back(std::move(step));
    }
  }
}

int StepWriter::logged(StepKind kind) const {
  const auto found = std::find_if(steps_.rbegin(), steps_.rend(), [kind](const PlanStep& step) {
    return step.done && step.kind == kind;
  });
  return found == steps_.rend() ? 0 : found->id;
}

void StepWriter::add_note(PlanStep& step, std::string text) {
  if (said_.insert(text).second) {
    step.notes.push_back(std::move(text));
  }
}

std::string StepWriter::face_name(const std::vector<int>& faces) const {
  if (request_.piece.faces == Faces::kOne) {
    return "";
  }
  if (faces.size() > 1) {
    return "both";
  }
  return faces.front() == 0 ? "back" : "front";
}

void StepWriter::write_drying(const LaidCoat& coat, Time start, Time end) {
  PlanStep step;
  step.id = next_id_++;
  step.piece = request_.piece.name;
  step.part = "all";
  step.kind = StepKind::kWait;
  step.product = coat.product->name;
  step.product_title = coat.product->title;
  step.start = start;
  step.end = end;
  step.attended = false;
  step.people = 0;
  step.rack_places = 1;
  step.air = clocks_.air().at(start);
  step.surface = surface_temperature(clocks_.air(), start);
  steps_.push_back(std::move(step));
}

LaidCoat StepWriter::write_coat(const WorkItem& work,
                                const PlacedCoat& placed,
                                const PieceState& state,
                                CoatPlacement& placement) {
  const auto& under = state.on(work.faces.front());
  LaidCoat laid;
  laid.product = work.product;
  laid.begun = placed.applied();
  laid.ended = placed.wet_until();
  set_film(laid, *work.step);
  Time last_stroke = placed.start;
  int mix_step = 0;
  Time mixed = placed.start;
  for (const SessionPart& part : placed.session.parts) {
    PlanStep& step =
        write(part, placed.start + part.offset, work, under ? under->product : nullptr);
    if (part.kind == StepKind::kAbrade) {
      add_stage_waits(step, Stage::kSandable, work.faces, state);
    } else if (part.kind == StepKind::kApply) {
      if (laid.step == 0) {
        add_recoat_waits(step, placed, placement);
      }
      const AirLimits limits(clocks_.air(), *work.product);
      for (LimitBreach& caution : limits.cautions(step.start, laid.ended + kSettingWatched)) {
        step.cautions.push_back(std::move(caution.text));
      }
      if (mix_step != 0) {
        add_pot_life_wait(step, mix_step, mixed, *work.product);
      }
      last_stroke = step.start;
      laid.step = step.id;
    } else if (part.kind == StepKind::kMix && work.product->mix) {
      mix_step = step.id;
      mixed = step.end;
    } else if (part.kind == StepKind::kWipe) {
      add_wipe_wait(step, laid.step, last_stroke, *work.product);
      laid.step = step.id;
    }
  }
  return laid;
}

void StepWriter::add_wait(PlanStep& step,
                          Wait about,
                          const StageTiming& timing,
                          CoatProgress drying) {
  about.mechanism = timing.description();
  for (const Phase& phase : timing.phases) {
    const Hours needed = phase.duration.at_deviate(rule_.deviate);
    about.phases.push_back({phase.law, phase.duration, needed, phase.labelled});
    about.needed = about.needed + needed;
  }
  about.earned = drying.earned(timing, rule_.deviate, step.start);
  about.opens_at = drying.opens(timing, rule_.deviate, rule_.horizon).value_or(rule_.horizon);
  about.chance = normal_probability(drying.opening_deviate(timing, step.start));
  step.chance = std::min(step.chance, about.chance);
  step.after.push_back(std::move(about));
}

void StepWriter::add_stage_waits(PlanStep& step,
                                 Stage stage,
                                 const std::vector<int>& faces,
                                 const PieceState& state) {
  int seen = 0;
  for (const int face : faces) {
    const auto& coat = state.on(face);
    const auto timing = coat ? coat->timing(stage) : std::nullopt;
    if (!timing || coat->came_in || coat->step == seen) {
      continue;  // long dry; or both faces carry the same coat
    }
    seen = coat->step;
    Wait wait;
    wait.step = coat->step;
    wait.stage = std::string(name_of(stage));
    wait.product = coat->product->title;
    wait.since = coat->ended;
    wait.gate = coat->gate();
    wait.source = coat->product->stage(stage)->source;
    wait.condition = "none";
    add_wait(step, std::move(wait), *timing, coat->since_end(clocks_));
  }
}

void StepWriter::add_rub_out_waits(PlanStep& step, const WorkItem& work, const PieceState& state) {
  int seen = 0;
  for (const int face : work.faces) {
    const auto& coat = state.on(face);
    const auto timing = coat ? rub_out_timing(*work.step, *coat) : std::nullopt;
    if (!timing || coat->came_in || coat->step == seen) {
      continue;
    }
    seen = coat->step;
    const DryingStage* cured = coat->product->stage(Stage::kFullCure);
    Wait wait;
    wait.step = coat->step;
    wait.stage = "rub-out";
    wait.product = coat->product->title;
    wait.since = coat->ended;
    wait.gate = coat->gate();
    wait.source = work.step->waits || cured == nullptr ? work.step->source : cured->source;
    wait.condition = "none";
    add_wait(step, std::move(wait), *timing, coat->since_end(clocks_));
  }
}

void StepWriter::add_recoat_waits(PlanStep& step,
                                  const PlacedCoat& placed,
                                  CoatPlacement& placement) {
  int seen = 0;
  for (const RecoatChoice& choice : placed.choices) {
    if (choice.coat.came_in) {
      add_pair_notes(step, choice);  // a finish that the piece came in with: nothing is waited for
      continue;
    }
    if (choice.coat.step == seen) {
      continue;
    }
    seen = choice.coat.step;
    Wait wait;
    wait.step = choice.coat.step;
    wait.stage = std::string(name_of(Stage::kRecoat));
    wait.product = choice.coat.product->title;
    wait.since = choice.coat.ended;
    wait.gate = choice.coat.gate();
    wait.source = choice.source;
    wait.closes_at = choice.closes_at;
    wait.condition = placed.after_abrading ? "abrade" : "none";
    add_wait(step, std::move(wait), choice.opening, choice.coat.since_end(clocks_));
    if (choice.closing) {
      const Phase& phase = choice.closing->phases.back();
      step.after.back().closing = WaitPhase{
          phase.law, phase.duration, phase.duration.at_deviate(-rule_.deviate), phase.labelled};
      step.after.back().closing_since = choice.coat.begun;
      step.after.back().chance = placement.chance_of(choice, step.start);
      step.chance = std::min(step.chance, step.after.back().chance);
    }
    add_pair_notes(step, choice);
  }
}

void StepWriter::add_pair_notes(PlanStep& step, const RecoatChoice& choice) {
  if (!choice.reason.empty()) {
    add_note(step, fmt::format("Over {}: {}.", choice.coat.product->title, choice.reason));
  }
  if (!choice.dissent.empty()) {
    add_note(step, fmt::format("Sources differ here: {}.", choice.dissent));
  }
}

void StepWriter::add_pot_life_wait(PlanStep& step,
                                   int mix_step,
                                   Time mixed,
                                   const Product& product) {
  const Mix& mix = *product.mix;
  if (!mix.pot_life) {
    return;
  }
  Wait wait = wait_by_the_clock(step, mixed, mix.induction, mix.pot_life_law);
  wait.step = mix_step;
  wait.stage = "pot life";
  wait.product = product.title;
  wait.closes_at = mixed + pot_life_of(product, mixed, clocks_);
  wait.source = mix.pot_life_source;
  step.after.push_back(std::move(wait));
}

void StepWriter::add_wipe_wait(PlanStep& step,
                               int apply_step,
                               Time wetted,
                               const Product& product) {
  const WipeOff& wipe = *product.wipe_off;
  Wait wait = wait_by_the_clock(step, wetted, wipe.opens, wipe.closing_law);
  wait.step = apply_step;
  wait.stage = "wipe-off";
  wait.product = product.title;
  wait.closes_at = wetted + wipe_closes(product, wetted, clocks_);
  wait.phases.push_back({rate_law_of(Mechanism::kElapsed), {wipe.opens, wipe.opens}, wipe.opens});
  wait.source = wipe.source;
  step.after.push_back(std::move(wait));
}

}  // namespace coatwright
