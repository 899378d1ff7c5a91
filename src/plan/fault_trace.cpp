#include "plan/fault_trace.h"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "base/zone.h"
#include "plan/fault_air.h"
#include "plan/fault_marks.h"

namespace coatwright {
namespace {

// How sure it is that the film was past its critical stage when the air is no longer looked at: a
// verdict's default. Beyond four weeks it is not looked at either.
constexpr double kConfidence = 0.9;
constexpr std::chrono::hours kHorizon{24 * 28};
// With an even chance or a better one that the coat was right, a finding speaks weakly.
constexpr double kEvenChance = 0.5;

/// The kind of finding that a sign is; nothing for the others.
std::optional<VerdictKind> finding_of(FaultSign sign) {
  switch (sign) {
    case FaultSign::kCoatEarly:
      return VerdictKind::kEarly;
    case FaultSign::kCoatLate:
      return VerdictKind::kLate;
    case FaultSign::kNotAbraded:
      return VerdictKind::kUnabraded;
    case FaultSign::kForbiddenPair:
      return VerdictKind::kForbidden;
    default:
      return std::nullopt;
  }
}

class Tracer {
 public:
  Tracer(const Defect& defect, const FaultCase& piece, const AirRecord& air)
      : defect_(defect), log_(piece), clocks_(air, log_.begin()), now_(piece.now) {}

  std::vector<Suspect> suspects() {
    for (const DefectTrigger& trigger : defect_.triggers) {
      for (const TracedWork* coat : log_.coats()) {
        look(trigger, *coat);
      }
    }
    std::stable_sort(found_.begin(), found_.end(), [this](const Suspect& a, const Suspect& b) {
      return place_of(a) < place_of(b);
    });
    return std::move(found_);
  }

 private:
  /// Place in the order of the most likely first.
  [[nodiscard]] std::tuple<bool, std::ptrdiff_t, double, Time::rep> place_of(
      const Suspect& one) const {
    return {!one.strong,
            one.trigger - defect_.triggers.data(),
            -one.by,
            -one.coat->at.time_since_epoch().count()};
  }

  /// Whether the coat, or the one that it went on, may have the defect.
  [[nodiscard]] bool concerns(const TracedWork& coat, bool with_beneath) const {
    const TracedWork* beneath = with_beneath ? log_.beneath(coat) : nullptr;
    return defect_.befalls(*coat.product) ||
           (beneath != nullptr && defect_.befalls(*beneath->product));
  }

  void look(const DefectTrigger& trigger, const TracedWork& coat) {
    const auto kind = finding_of(trigger.sign);
    if (!concerns(coat, kind.has_value())) {
      return;
    }
    if (kind) {
      look_in_findings(trigger, coat, *kind);
    } else if (const auto mark = mark_of(trigger.sign, coat)) {
      found_.push_back({&trigger,
                        &coat,
                        mark->strong,
                        mark->chance,
                        mark->off,
                        mark->by,
                        mark->text,
                        "",
                        mark->source});
    }
  }

  void look_in_findings(const DefectTrigger& trigger, const TracedWork& coat, VerdictKind kind) {
    for (const Finding& finding : coat.findings) {
      if (finding.kind == kind) {
        found_.push_back({&trigger,
                          &coat,
                          finding.chance < kEvenChance,
                          finding.chance,
                          finding.by,
                          1.0 - finding.chance,
                          words_of(finding),
                          finding.to_do,
                          finding.source});
      }
    }
  }

  /// "early by 3 h 20 min: ...".
  [[nodiscard]] static std::string words_of(const Finding& finding) {
    return fmt::format("{}{}: {}",
                       name_of(finding.kind),
                       finding.by.count() == 0 ? "" : " by " + show_duration(finding.by),
                       finding.text);
  }

  [[nodiscard]] std::optional<FaultMark> mark_of(FaultSign sign, const TracedWork& coat) {
    for (const AirShortfall& one : shortfalls(coat)) {
      if (one.sign == sign) {
        return FaultMark{one.text, one.clear && one.measured, one.by, one.source};
      }
    }
    return log_.mark(sign, coat, clocks_);
  }

  /// Looked for once for a coat.
  [[nodiscard]] const std::vector<AirShortfall>& shortfalls(const TracedWork& coat) {
    const auto known = shortfalls_.find(&coat);
    if (known != shortfalls_.end()) {
      return known->second;
    }
    const WaitRule rule{normal_deviate(kConfidence), coat.at + kHorizon};
    const Time set = log_.laid(coat).past_critical_stage(clocks_, rule).value_or(rule.horizon);
    auto found = air_shortfalls(*coat.product, {coat.at, set, now_, coat.air}, clocks_.air());
    return shortfalls_.emplace(&coat, std::move(found)).first->second;
  }

  const Defect& defect_;
  FaultLog log_;
  DryingClocks clocks_;
  Time now_;
  std::map<const TracedWork*, std::vector<AirShortfall>> shortfalls_;
  std::vector<Suspect> found_;
};

}  // namespace

std::vector<Suspect> trace_fault(const Defect& defect,
                                 const FaultCase& piece,
                                 const AirRecord& air) {
  return Tracer(defect, piece, air).suspects();
}

}  // namespace coatwright
