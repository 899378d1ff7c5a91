#include "plan/fault_marks.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/zone.h"
#include "quantity/dry_film.h"
#include "recipe/grits.h"

namespace coatwright {
namespace {

// So many times the thickest usual coat speaks strongly. Source: judgement.
constexpr double kMuchTooMuch = 1.5;
// A stage reached with less than this chance was not waited for: a plan's confidence.
constexpr double kConfidence = 0.9;
constexpr double kEvenChance = 0.5;
// Wood of furniture for a heated house, in percent of its dry mass. Source: from memory, the upper
// end for single boards in most of a temperate country.
constexpr double kDampestWood = 10.0;

bool overlap(const TracedWork& a, const TracedWork& b) {
  const bool one_part = a.part.empty() || b.part.empty() || a.part == b.part;
  return one_part && std::any_of(a.faces.begin(), a.faces.end(), [&](int face) {
           return std::find(b.faces.begin(), b.faces.end(), face) != b.faces.end();
         });
}

bool is_coat(const TracedWork& work) {
  return work.kind == StepKind::kApply && work.product != nullptr;
}

/// The stage that a coat must have reached for a step that presses on it; nothing for the others.
/// Source: common practice.
std::optional<Stage> stage_for(StepKind kind) {
  switch (kind) {
    case StepKind::kFlip:
    case StepKind::kGlue:
    case StepKind::kDryFit:
    case StepKind::kAssemble:
    case StepKind::kHardware:
      return Stage::kHandle;
    case StepKind::kMask:
    case StepKind::kDeliver:
      return Stage::kPrintFree;
    default:
      return std::nullopt;
  }
}

std::string micrometres(const DryRange& film) {
  return fmt::format("{:.0f} to {:.0f} um", film.low.micrometres(), film.high.micrometres());
}

bool is_finer(const std::string& grit, const std::string& than) {
  return mean_grain_um(grit) < mean_grain_um(than);
}

}  // namespace

Time FaultLog::begin() const {
  return piece_.works.empty() ? Time{} : piece_.works.front().at;
}

std::vector<const TracedWork*> FaultLog::coats() const {
  std::vector<const TracedWork*> coats;
  for (const TracedWork& work : piece_.works) {
    if (is_coat(work)) {
      coats.push_back(&work);
    }
  }
  return coats;
}

const TracedWork* FaultLog::beneath(const TracedWork& coat) const {
  const TracedWork* beneath = nullptr;
  for (const TracedWork* one = piece_.works.data(); one != &coat; ++one) {
    beneath = is_coat(*one) && overlap(*one, coat) ? one : beneath;
  }
  return beneath;
}

const TracedWork* FaultLog::next_coat(const TracedWork& coat) const {
  const TracedWork* end = piece_.works.data() + piece_.works.size();
  const TracedWork* next = std::find_if(
      &coat + 1, end, [&](const TracedWork& one) { return is_coat(one) && overlap(one, coat); });
  return next == end ? nullptr : next;
}

const TracedWork* FaultLog::wiping(const TracedWork& coat) const {
  const TracedWork* next = next_coat(coat);
  const TracedWork* end = next != nullptr ? next : piece_.works.data() + piece_.works.size();
  const TracedWork* wiping = std::find_if(&coat + 1, end, [&](const TracedWork& one) {
    return one.kind == StepKind::kWipe && overlap(one, coat);
  });
  return wiping == end ? nullptr : wiping;
}

std::vector<const TracedWork*> FaultLog::coats_up_to(const TracedWork& coat) const {
  std::vector<const TracedWork*> coats;
  for (const TracedWork* one = piece_.works.data(); one <= &coat; ++one) {
    if (is_coat(*one) && overlap(*one, coat)) {
      coats.push_back(one);
    }
  }
  return coats;
}

bool FaultLog::on_bare_wood(const TracedWork& coat) const {
  return !piece_.came_in_finished && beneath(coat) == nullptr;
}

const TracedWork* FaultLog::last_before(const TracedWork& coat, StepKind kind) const {
  const TracedWork* last = nullptr;
  for (const TracedWork* one = piece_.works.data(); one != &coat; ++one) {
    last = one->kind == kind && overlap(*one, coat) ? one : last;
  }
  return last;
}

LaidCoat FaultLog::laid(const TracedWork& coat) const {
  LaidCoat laid;
  laid.product = coat.product;
  laid.begun = coat.at;
  const TracedWork* wiped = wiping(coat);
  laid.ended = wiped == nullptr ? coat.at : wiped->at;
  if (coat.laid_by != nullptr) {
    set_film(laid, *coat.laid_by);
  }
  return laid;
}

std::optional<FaultMark> FaultLog::mark(FaultSign sign,
                                        const TracedWork& coat,
                                        DryingClocks& clocks) const {
  switch (sign) {
    case FaultSign::kThickFilm:
      return thick_film(coat);
    case FaultSign::kWipedLate:
      return wiped_late(coat, clocks);
    case FaultSign::kEarlyUse:
      return early_use(coat, clocks);
    case FaultSign::kOilyWood:
    case FaultSign::kTanninWood:
    case FaultSign::kBlotchingWood:
      return of_wood(sign, coat);
    case FaultSign::kGrainNotRaised:
      return grain_not_raised(coat);
    case FaultSign::kSandedTooFine:
      return sanded_too_fine(coat);
    case FaultSign::kWetWood:
      return wet_wood(coat);
    default:
      return std::nullopt;
  }
}

std::optional<FaultMark> FaultLog::thick_film(const TracedWork& coat) const {
  const auto used = much_used(coat);
  return used ? used : much_in_all(coat);
}

/// More of it than the thickest usual coat takes.
std::optional<FaultMark> FaultLog::much_used(const TracedWork& coat) const {
  if (!coat.amount || !coat.face_area) {
    return std::nullopt;
  }
  const double area = coat.face_area->square_metres() * static_cast<double>(coat.faces.size());
  const double spread = area / coat.amount->litres();
  const Film& film = coat.product->film;
  const double times = film.spread_low_m2_per_l / spread;
  if (times <= 1.0) {
    return std::nullopt;
  }
  return FaultMark{
      fmt::format("{:.2f} L of it went on {:.2f} m2, {:.1f} m2 a litre; a coat covers {:.3g} to "
                  "{:.3g}: {:.1f} times the thickest usual one",
                  coat.amount->litres(),
                  area,
                  spread,
                  film.spread_low_m2_per_l,
                  film.spread_high_m2_per_l,
                  times),
      times >= kMuchTooMuch,
      times - 1.0,
      film.spread_source};
}

/// All coats together thicker than the class of the last one bears.
std::optional<FaultMark> FaultLog::much_in_all(const TracedWork& coat) const {
  if (next_coat(coat) != nullptr) {
    return std::nullopt;
  }
  std::vector<FilmCoats> coats;
  for (const TracedWork* one : coats_up_to(coat)) {
    coats.push_back({one->product, 1, {}, {}});
    if (one->laid_by != nullptr) {
      coats.back().wet_film = one->laid_by->wet_film;
      coats.back().thinning = one->laid_by->thinning;
    }
  }
  const DryFilm film = dry_film_of(coats);
  const auto check = std::find_if(
      film.checks.begin(), film.checks.end(), [](const FilmCheck& one) { return one.whole; });
  if (check == film.checks.end() || check->verdict == FilmVerdict::kWithin) {
    return std::nullopt;
  }
  return FaultMark{
      fmt::format("with it {} coats lie there, by their usual films {} dry; {} bears {:.0f} um",
                  coats.size(),
                  micrometres(check->dry),
                  check->product->title,
                  check->limit.micrometres()),
      check->verdict == FilmVerdict::kAbove,
      check->dry.high.micrometres() / check->limit.micrometres() - 1.0,
      coat.product->film.total_dry_max->source};
}

std::optional<FaultMark> FaultLog::wiped_late(const TracedWork& coat, DryingClocks& clocks) const {
  if (!coat.product->wipe_off) {
    return std::nullopt;
  }
  const std::string& source = coat.product->wipe_off->source;
  const auto closes = wipe_closes(*coat.product, coat.at, clocks);
  const TracedWork* wiped = wiping(coat);
  if (wiped == nullptr) {
    return FaultMark{fmt::format("no wiping of it is logged; its excess must be off after {}",
                                 show_duration(closes)),
                     false,
                     0,
                     source};
  }
  const auto late = wiped->at - coat.at - closes;
  if (late.count() <= 0) {
    return std::nullopt;
  }
  return FaultMark{fmt::format("wiped late by {}: entry {} wiped it {} after it went on, and in "
                               "this air it must be off after {}",
                               show_duration(late),
                               wiped->entry,
                               show_duration(wiped->at - coat.at),
                               show_duration(closes)),
                   true,
                   static_cast<double>(late.count()),
                   source,
                   {},
                   late};
}

/// Pressed on before it had the hardness for it.
std::optional<FaultMark> FaultLog::early_use(const TracedWork& coat, DryingClocks& clocks) const {
  const TracedWork* end = piece_.works.data() + piece_.works.size();
  for (const TracedWork* use = &coat + 1; use != end; ++use) {
    const auto stage = overlap(*use, coat) ? stage_for(use->kind) : std::nullopt;
    const LaidCoat film = laid(coat);
    const auto timing = stage ? film.timing(*stage) : std::nullopt;
    if (!timing) {
      continue;
    }
    const double chance =
        normal_probability(film.since_end(clocks).opening_deviate(*timing, use->at));
    if (chance >= kConfidence) {
      continue;
    }
    return FaultMark{
        fmt::format(
            "entry {}, {}, was {} after it; the chance that it was '{}' by then is {:.0f} %",
            use->entry,
            name_of(use->kind),
            show_duration(use->at - coat.at),
            name_of(*stage),
            chance * 100.0),
        chance < kEvenChance,
        1.0 - chance,
        coat.product->stage(*stage)->source,
        chance};
  }
  return std::nullopt;
}

/// What the wood is, where the coat went on it bare.
std::optional<FaultMark> FaultLog::of_wood(FaultSign sign, const TracedWork& coat) const {
  const Species* wood = piece_.species;
  if (wood == nullptr || !on_bare_wood(coat)) {
    return std::nullopt;
  }
  const bool told = sign == FaultSign::kOilyWood     ? wood->oily
                    : sign == FaultSign::kTanninWood ? wood->tannin
                                                     : wood->blotches;
  if (!told) {
    return std::nullopt;
  }
  const char* trait = sign == FaultSign::kOilyWood     ? "is oily"
                      : sign == FaultSign::kTanninWood ? "holds tannin"
                                                       : "takes stain unevenly";
  return FaultMark{
      fmt::format("it went on bare {}, which {}", wood->title, trait), true, 0, wood->source};
}

std::optional<FaultMark> FaultLog::grain_not_raised(const TracedWork& coat) const {
  if (!coat.product->raises_grain || !on_bare_wood(coat) ||
      last_before(coat, StepKind::kRaiseGrain) != nullptr) {
    return std::nullopt;
  }
  const bool sanding_known = last_before(coat, StepKind::kSand) != nullptr;
  return FaultMark{sanding_known
                       ? "it wets the wood, and the grain was not raised before, as the log has it"
                       : "it wets the wood; neither sanding nor raising of the grain is logged",
                   sanding_known};
}

std::optional<FaultMark> FaultLog::sanded_too_fine(const TracedWork& coat) const {
  const TracedWork* sanding = last_before(coat, StepKind::kSand);
  if (sanding == nullptr || sanding->grit.empty() || piece_.species == nullptr ||
      piece_.sanding == nullptr || !on_bare_wood(coat)) {
    return std::nullopt;
  }
  const auto found = piece_.sanding->final_grits.find(coat.product->layer);
  if (found == piece_.sanding->final_grits.end()) {
    return std::nullopt;
  }
  const std::string& finest = found->second.limits.at(sanded_wood(*piece_.species)).finest;
  if (!is_finer(sanding->grit, finest)) {
    return std::nullopt;
  }
  return FaultMark{fmt::format("entry {} sanded to {}; under {} {} is the finest for {}",
                               sanding->entry,
                               sanding->grit,
                               coat.product->title,
                               finest,
                               piece_.species->title),
                   true,
                   *grit_ratio(finest, sanding->grit),
                   found->second.ground.source};
}

/// The last measurement before the first coat.
std::optional<FaultMark> FaultLog::wet_wood(const TracedWork& coat) const {
  const WoodReading* last = nullptr;
  for (const WoodReading& one : piece_.readings) {
    const bool there = one.part.empty() || coat.part.empty() || one.part == coat.part;
    last = there && one.at <= coat.at ? &one : last;
  }
  if (last == nullptr || last->percent <= kDampestWood || !on_bare_wood(coat)) {
    return std::nullopt;
  }
  return FaultMark{fmt::format("entry {} measured the wood at {:.1f} %; wood for a heated house is "
                               "finished at {:.0f} % at most",
                               last->entry,
                               last->percent,
                               kDampestWood),
                   true,
                   last->percent - kDampestWood,
                   "from-memory"};
}

}  // namespace coatwright
