#include "plan/allowed_starts.h"

#include <algorithm>
#include <cmath>

#include "plan/air_limits.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr std::size_t kGrainsOfWeek = 7 * 24 * 60 / kGrainTicks;

enum : char { kUnasked = 0, kKept = 1, kBroken = 2 };

bool has_limits(const Limits& limits) {
  return limits.temperature_min || limits.film_formation_min || limits.humidity_max ||
         limits.dew_point_spread_min;
}

}  // namespace

std::vector<Interval> openings_of(const std::vector<StaffedHours>& hours) {
  std::vector<Interval> openings;
  for (const StaffedHours& one : hours) {
    if (one.people <= 0) {
      continue;
    }
    if (!openings.empty() && openings.back().end == one.open.start) {
      openings.back().end = one.open.end;
    } else {
      openings.push_back(one.open);
    }
  }
  return openings;
}

std::vector<CapacityStep> people_over_time(const std::vector<StaffedHours>& hours,
                                           const std::vector<Interval>& busy,
                                           TickScale ticks) {
  std::map<Tick, int> changes;
  changes[0] += 0;
  const auto add = [&](const Interval& span, int people) {
    const Tick from = std::max(0, ticks.not_before(span.start));
    const Tick to = std::max(0, ticks.not_after(span.end));
    if (from < to) {
      changes[from] += people;
      changes[to] -= people;
    }
  };
  for (const StaffedHours& one : hours) {
    add(one.open, one.people);
  }
  for (const Interval& span : busy) {
    add(span, -1);
  }
  std::vector<CapacityStep> steps;
  int people = 0;
  for (const auto& [at, change] : changes) {
    people += change;
    const int there = std::max(0, people);
    if (steps.empty() || steps.back().capacity != there) {
      steps.push_back({at, there});
    }
  }
  return steps;
}

StartSet starts_in(const std::vector<Interval>& openings, const StartRule& rule, TickScale ticks) {
  StartSet set;
  for (const Interval& opening : openings) {
    const Tick first = grain_up(std::max({0, rule.first, ticks.not_before(opening.start)}));
    const Tick last = grain_down(std::min(rule.last, ticks.not_after(opening.end) - rule.length));
    if (first > last) {
      continue;
    }
    if (!rule.allows) {
      set.spans.push_back({first, last});
      continue;
    }
    bool open = false;
    for (Tick start = first; start <= last; start += kGrainTicks) {
      const bool allowed = rule.allows(start);
      if (allowed && open) {
        set.spans.back().last = start;
      } else if (allowed) {
        set.spans.push_back({start, start});
      }
      open = allowed;
    }
  }
  return set;
}

/// Temperature and humidity ratio run linearly between two corners, so their ends bound what lies
/// between: where even the worst of both keeps the limits, all does.
bool AirForWork::may_break(const Limits& limits, std::size_t stretch) const {
  constexpr std::chrono::hours kWoodRemembers{4};  // longer than a board follows the air
  constexpr double kMarginKelvin = 0.5;
  const AirKnot& from = corners_[stretch];
  const AirKnot& to = corners_[stretch + 1];
  const Temperature coldest = std::min(from.temperature, to.temperature);
  const auto is_above = [&](const auto& limit) { return !limit || coldest >= limit->value; };
  if (!is_above(limits.temperature_min) || !is_above(limits.film_formation_min)) {
    return true;
  }
  if (limits.humidity_max &&
      relative_humidity_from_humidity_ratio(coldest, std::max(from.ratio, to.ratio)) >
          limits.humidity_max->value) {
    return true;
  }
  if (!limits.dew_point_spread_min) {
    return false;
  }
  Temperature wood = coldest;
  for (std::size_t i = stretch + 1; i-- > 0 && from.at - corners_[i].at < kWoodRemembers;) {
    wood = std::min(wood, corners_[i].temperature);
    if (i == 0) {
      return true;  // what was before is not known here
    }
  }
  const Temperature dew = std::max(dew_points_[stretch], dew_points_[stretch + 1]);
  return (wood - dew).kelvin() < limits.dew_point_spread_min->value.kelvin() + kMarginKelvin;
}

const AirForWork::Doubt& AirForWork::doubt_of(const Product& product) {
  if (corners_.empty()) {
    constexpr std::chrono::hours kBefore{12};
    corners_ = clocks_.air().knots(ticks_.time(0) - kBefore, rule_.horizon);
    for (const AirKnot& corner : corners_) {
      dew_points_.push_back(clocks_.air().at(corner.at).dew_point);
    }
  }
  const auto [found, is_new] = doubts_.try_emplace(&product);
  Doubt& doubt = found->second;
  if (is_new) {
    doubt.before.push_back(0);
    for (std::size_t i = 0; i + 1 < corners_.size(); ++i) {
      doubt.before.push_back(doubt.before.back() + (may_break(product.limits, i) ? 1 : 0));
    }
  }
  return doubt;
}

bool AirForWork::in_doubt(const Product& product, Time from, Time to) {
  const Doubt& doubt = doubt_of(product);
  const auto stretch_of = [&](Time at) {
    const auto next =
        std::upper_bound(corners_.begin(), corners_.end(), at, [](Time one, const AirKnot& corner) {
          return one < corner.at;
        });
    return std::clamp<std::ptrdiff_t>(next - corners_.begin() - 1, 0, std::ssize(corners_) - 1);
  };
  const auto first = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, stretch_of(from) - 1));
  const auto last = static_cast<std::size_t>(
      std::min<std::ptrdiff_t>(std::ssize(corners_) - 1, stretch_of(to) + 1));
  return doubt.before[last] > doubt.before[first];
}

bool AirForWork::keeps_limits(const Product& product, Tick applied, Time set) {
  if (!has_limits(product.limits) || !in_doubt(product, ticks_.time(applied), set)) {
    return true;
  }
  for (Tick at = applied; ticks_.time(at) < set; at += kGrainTicks) {
    if (is_breach(product, at)) {
      return false;
    }
  }
  return !AirLimits(clocks_.air(), product).breach_at(set);
}

bool AirForWork::is_breach(const Product& product, Tick at) {
  const Tick phase = at % kGrainTicks;
  auto& known = breaches_[{&product, phase}];
  const auto place = static_cast<std::size_t>(at / kGrainTicks);
  if (place >= known.size()) {
    known.resize(place + kGrainsOfWeek, kUnasked);
  }
  if (known[place] == kUnasked) {
    const AirLimits limits(clocks_.air(), product);
    known[place] = limits.breach_at(ticks_.time(at)) ? kBroken : kKept;
  }
  return known[place] == kBroken;
}

bool AirForWork::in_time(const Product& product, const BenchSession& session, Time start) {
  for (std::size_t i = 0; i < session.parts.size(); ++i) {
    const SessionPart& part = session.parts[i];
    if (part.kind == StepKind::kWipe && i > 0 && product.wipe_off) {
      const SessionPart& on = session.parts[i - 1];
      const seconds longest =
          std::max(part.offset - on.offset, part.offset + part.length - on.offset - on.length);
      if (longest >= wipe_closes(product, start + on.offset, clocks_)) {
        return false;
      }
    }
    if (part.kind == StepKind::kMix && product.mix && product.mix->pot_life) {
      const seconds mixed = part.offset + part.length;
      seconds used_up = mixed;
      for (std::size_t j = i + 1; j < session.parts.size(); ++j) {
        if (session.parts[j].kind == StepKind::kMix) {
          break;
        }
        if (session.parts[j].kind == StepKind::kApply) {
          used_up = session.parts[j].offset + session.parts[j].length;
        }
      }
      if (used_up > mixed && used_up - mixed >= pot_life_of(product, start + mixed, clocks_)) {
        return false;
      }
    }
  }
  return true;
}

bool AirForWork::allows(const LaidCoat& coat, const BenchSession& session, Tick start) {
  auto& known = answers_[{coat.product,
                          coat.film_ratio,
                          coat.thinning ? coat.thinning->share : 0.0,
                          coat.thinning ? coat.thinning->thinner.rate : 0.0,
                          session.apply_offset.count(),
                          session.wet_end.count(),
                          session.parts.size()}];
  const auto place = static_cast<std::size_t>(start / kGrainTicks);
  if (place >= known.size()) {
    known.resize(place + kGrainsOfWeek, kUnasked);
  }
  if (known[place] == kUnasked) {
    known[place] = reckon(coat, session, start) ? kKept : kBroken;
  }
  return known[place] == kKept;
}

bool AirForWork::reckon(const LaidCoat& coat, const BenchSession& session, Tick start) {
  const Product& product = *coat.product;
  LaidCoat laid = coat;
  laid.ended = ticks_.time(start) + session.wet_end;
  const auto set = laid.past_critical_stage(clocks_, rule_);
  if (!set) {
    return false;  // a film that never sets is not laid
  }
  const Tick applied = start + ticks_of(session.apply_offset);
  return keeps_limits(product, applied, *set) && in_time(product, session, ticks_.time(start));
}

bool AirForWork::allows(const Glue& glue, Tick start, Tick clamped_until) {
  if (clamped_until >= kNeverTick) {
    return false;
  }
  for (Tick at = start; at < clamped_until + kGrainTicks; at += kGrainTicks) {
    const Temperature air = temperature_at(at);
    if (air < glue.at_least || air > glue.at_most) {
      return false;
    }
  }
  return true;
}

Temperature AirForWork::temperature_at(Tick at) {
  const auto place = static_cast<std::size_t>(at / kGrainTicks);
  if (at < 0 || at % kGrainTicks != 0) {
    return clocks_.air().at(ticks_.time(at)).temperature;
  }
  if (place >= temperatures_.size()) {
    temperatures_.resize(place + kGrainsOfWeek);
  }
  auto& known = temperatures_[place];
  if (!known) {
    known = clocks_.air().at(ticks_.time(at)).temperature;
  }
  return *known;
}

std::chrono::seconds AirForWork::open_time(const Glue& glue, Tick start) {
  const Time since = ticks_.time(start);
  const seconds label(std::llround(glue.open_low.hours() * 3600.0));
  const auto by_clock =
      clocks_.of(glue.law, std::nullopt).reached(since, glue.open_low, since + label);
  return by_clock ? *by_clock - since : label;
}

std::chrono::seconds span_of(const BuildWork& work) {
  return seconds(std::llround(work.work.hours() * 3600.0));
}

bool fits_open_time(const BuildWork& work) {
  return work.glue == nullptr || work.work <= work.glue->open_low;
}

StageTiming clamp_timing(const Glue& glue) {
  StageTiming timing;
  timing.phases.push_back({glue.law, DurationRange(glue.clamp_low, glue.clamp_high), 0.0});
  return timing;
}

std::optional<StageTiming> surface_timing(const Glue& glue) {
  if (!glue.surface_after) {
    return std::nullopt;
  }
  StageTiming timing;
  timing.phases.push_back({glue.law, DurationRange(*glue.surface_after, *glue.surface_after), 0.0});
  return timing;
}

}  // namespace coatwright
