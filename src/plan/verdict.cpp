#include "plan/verdict.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "plan/air_limits.h"
#include "plan/verdict_texts.h"

namespace coatwright {
namespace {

using std::chrono::seconds;

// A stage that is not reached in four weeks is not waited for.
constexpr std::chrono::hours kHorizon{24 * 28};
// Unfavourable air is looked for until the film has begun to set.
constexpr std::chrono::minutes kSettingWatched{30};

void take(Advice advice, Finding& finding) {
  finding.to_do = fmt::format("Not on yet: {}. Already on: {}.", advice.first, advice.then);
  finding.first = std::move(advice.first);
  finding.may_happen = std::move(advice.may_happen);
}

/// One interval of the pair, as it stands for the coat beneath.
struct Window {
  const RecoatInterval* interval;
  StageTiming opening;
  std::optional<Time> opens;  ///< None: not within the horizon.
  std::optional<Time> closes;
  double open_chance = 1.0;      ///< That it has opened.
  double unclosed_chance = 1.0;  ///< That it has not closed.
  double inside_chance = 1.0;    ///< Both.

  [[nodiscard]] bool too_early(Time at) const { return !opens || at < *opens; }
  [[nodiscard]] bool too_late(Time at) const { return closes && at > *closes; }
  [[nodiscard]] bool inside(Time at) const { return !too_early(at) && !too_late(at); }
  /// Where opening and closing overlap, no moment is sure: the likelier fault counts.
  [[nodiscard]] bool counts_as_late(Time at) const {
    return too_late(at) && (!too_early(at) || open_chance > unclosed_chance);
  }
  /// Narrow or uncertain, it may surely be open only when it may surely have closed.
  [[nodiscard]] bool has_sure_moment() const { return opens && (!closes || *opens <= *closes); }
  [[nodiscard]] bool asks_for_abrading() const {
    return interval->condition == RecoatCondition::kAbrade;
  }
};

/// What is asked of one coat.
struct Question {
  const Product& product;
  Time at;
  const LaidCoat& under;
  bool abraded;
  double confidence;
};

class Judge {
 public:
  Judge(const Question& question, const PairRule& rule, DryingClocks& clocks)
      : asked_(question),
        rule_(rule),
        clocks_(clocks),
        deviate_(normal_deviate(question.confidence)) {}

  [[nodiscard]] std::vector<Finding> findings() {
    const bool needs_abrading = !asked_.abraded && !allows(RecoatCondition::kNone);
    const auto windows = open_to(asked_.abraded || needs_abrading);
    if (windows.empty()) {
      return {forbidden()};
    }
    std::vector<Finding> findings = {judged(windows)};
    if (needs_abrading) {
      if (findings.front().kind != VerdictKind::kEarly) {
        findings.clear();
      }
      findings.push_back(unabraded());
    }
    return findings;
  }

 private:
  [[nodiscard]] bool allows(RecoatCondition condition) const {
    return std::any_of(rule_.intervals.begin(), rule_.intervals.end(), [&](const auto& one) {
      return one.condition == condition;
    });
  }

  /// The windows in which the coat may go on; abraded, also those that ask for it.
  [[nodiscard]] std::vector<Window> open_to(bool abraded) {
    std::vector<Window> windows;
    for (const RecoatInterval& interval : rule_.intervals) {
      const bool serves = interval.condition == RecoatCondition::kNone ||
                          (abraded && interval.condition == RecoatCondition::kAbrade);
      if (serves) {
        windows.push_back(window_of(interval));
      }
    }
    return windows;
  }

  [[nodiscard]] Window window_of(const RecoatInterval& interval) {
    Window window{&interval, asked_.under.adapted(interval.opens), {}, {}};
    CoatProgress opening = asked_.under.since_end(clocks_);
    window.opens = opening.opens(window.opening, deviate_, asked_.at + kHorizon);
    WindowDeviates deviates{opening.opening_deviate(window.opening, asked_.at)};
    deviates.opening_share = window.opening.shop_share();
    window.open_chance = normal_probability(deviates.opening);
    if (interval.closes) {
      CoatProgress closing = asked_.under.since_begin(clocks_);
      window.closes = closing.closes(*interval.closes, -deviate_, asked_.at + kHorizon);
      deviates.closing = closing.closing_deviate(*interval.closes, asked_.at);
      deviates.closing_share = interval.closes->shop_share();
      window.unclosed_chance = normal_probability(-deviates.closing);
    }
    window.inside_chance = joint_chance({&deviates, 1});
    return window;
  }

  [[nodiscard]] Finding judged(const std::vector<Window>& windows) {
    const Window* inside = nullptr;
    const Window* earliest = nullptr;
    const Window* last_closed = nullptr;
    for (const Window& window : windows) {
      if (window.inside(asked_.at)) {
        if (inside == nullptr || window.inside_chance > inside->inside_chance) {
          inside = &window;
        }
      } else if (window.counts_as_late(asked_.at)) {
        if (last_closed == nullptr || *window.closes > *last_closed->closes) {
          last_closed = &window;
        }
      } else if (earliest == nullptr || opens_before(window, *earliest)) {
        earliest = &window;
      }
    }
    if (inside != nullptr) {
      return in_window(*inside);
    }
    if (!is_late(last_closed, earliest)) {
      return early(*earliest);
    }
    // Nobody knows for how long it has been too late.
    return asked_.under.came_in && can_abrade() ? unabraded() : late(*last_closed, earliest);
  }

  /// Abraded, a coat is not late for a window that asks for nothing: it waits for the other.
  [[nodiscard]] static bool is_late(const Window* last_closed, const Window* earliest) {
    return last_closed != nullptr && (earliest == nullptr || last_closed->asks_for_abrading() ||
                                      !earliest->asks_for_abrading());
  }

  [[nodiscard]] static bool opens_before(const Window& a, const Window& b) {
    if (a.has_sure_moment() != b.has_sure_moment()) {
      return a.has_sure_moment();
    }
    return a.opens && (!b.opens || *a.opens < *b.opens);
  }

  [[nodiscard]] Finding begun(VerdictKind kind, const Window& window) const {
    Finding finding;
    finding.kind = kind;
    finding.chance = window.inside_chance;
    finding.source = window.interval->source.empty() ? rule_.source : window.interval->source;
    return finding;
  }

  [[nodiscard]] Finding in_window(const Window& window) const {
    Finding finding = begun(VerdictKind::kInWindow, window);
    finding.moment = window.closes;
    finding.text = fmt::format("{} over {}, whose window is open with {:.0f} % confidence",
                               asked_.product.title,
                               asked_.under.product->title,
                               std::floor(asked_.confidence * 100.0 + 1e-9));
    if (window.closes) {
      finding.text += fmt::format("; the chance that it has opened and not closed is {}",
                                  chance_text(window.inside_chance));
    }
    return finding;
  }

  [[nodiscard]] Finding early(const Window& window) {
    Finding finding = begun(VerdictKind::kEarly, window);
    finding.moment = window.opens;
    finding.by = window.opens ? *window.opens - asked_.at : seconds(0);
    Hours needed = Hours::from_hours(0);
    for (const Phase& phase : window.opening.phases) {
      needed = needed + phase.duration.at_deviate(deviate_);
    }
    const Hours earned =
        asked_.under.since_end(clocks_).earned(window.opening, deviate_, asked_.at);
    finding.text = fmt::format(
        "{} needs {:.1f} h at 23 C and 50 % before {} may follow with {:.0f} % confidence, and had "
        "{:.1f} h of them in this air ({}); the chance that it was ready is {}",
        asked_.under.product->title,
        needed.hours(),
        asked_.product.title,
        asked_.confidence * 100.0,
        earned.hours(),
        window.opening.description(),
        chance_text(window.open_chance));
    if (!window.opens) {
      finding.text += "; in the air as it is expected it is not ready within four weeks";
    }
    take(advice_when_early(*asked_.under.product, asked_.product), finding);
    if (window.opens && !window.has_sure_moment()) {
      finding.text += "; when it is surely ready, its window may have closed";
      finding.to_do += can_abrade() ? fmt::format(" Waited for that long, abrade it with {} first.",
                                                  asked_.under.product->abrade_grit)
                                    : "";
    }
    return finding;
  }

  /// Whether abrading, which was not done, would help.
  [[nodiscard]] bool can_abrade() const {
    return !asked_.abraded && allows(RecoatCondition::kAbrade) &&
           !asked_.under.product->abrade_grit.empty();
  }

  /// When the coat may go on abraded; nothing where that is at once.
  [[nodiscard]] std::optional<Time> opens_abraded() {
    std::optional<Time> opens;
    for (const Window& window : open_to(true)) {
      if (window.inside(asked_.at)) {
        return std::nullopt;
      }
      if (window.asks_for_abrading() && window.too_early(asked_.at) && window.opens) {
        opens = std::min(opens.value_or(*window.opens), *window.opens);
      }
    }
    return opens;
  }

  [[nodiscard]] Finding late(const Window& window, const Window* next) {
    Finding finding = begun(VerdictKind::kLate, window);
    finding.moment = window.closes;
    finding.by = asked_.at - *window.closes;
    finding.text = fmt::format(
        "{} takes {} without abrading only until its window closes; the chance that it was still "
        "open is {}",
        asked_.under.product->title,
        asked_.product.title,
        chance_text(window.unclosed_chance));
    take(advice_when_late(*asked_.under.product,
                          can_abrade() ? asked_.under.product->abrade_grit : ""),
         finding);
    if (next != nullptr && next->opens) {
      finding.to_do += fmt::format(" It may go on again {:.1f} h from then.",
                                   Hours::from_seconds(*next->opens - asked_.at).hours());
    }
    // Abraded too soon it tears and clogs the paper.
    if (const auto opens = can_abrade() ? opens_abraded() : std::nullopt) {
      finding.to_do += fmt::format(" It is ready to be abraded and coated {:.1f} h from then.",
                                   Hours::from_seconds(*opens - asked_.at).hours());
    }
    return finding;
  }

  [[nodiscard]] Finding unabraded() const {
    Finding finding;
    finding.kind = VerdictKind::kUnabraded;
    finding.chance = 0.0;
    finding.source = rule_.source;
    finding.text = fmt::format("{} holds on {} only when it is abraded, and no abrading is known",
                               asked_.product.title,
                               asked_.under.product->title);
    take(advice_when_unabraded(*asked_.under.product), finding);
    return finding;
  }

  [[nodiscard]] Finding forbidden() const {
    Finding finding;
    finding.kind = VerdictKind::kForbidden;
    finding.chance = 0.0;
    finding.source = rule_.source;
    finding.text = fmt::format("{} must not go over {}: {}",
                               asked_.product.title,
                               asked_.under.product->title,
                               rule_.reason);
    take(advice_when_forbidden(rule_.barriers.empty() ? "" : rule_.barriers.front()), finding);
    return finding;
  }

  /// Never rounded to a certainty that it is not.
  [[nodiscard]] static std::string chance_text(double chance) {
    if (chance < 0.01) {
      return "under 1 %";
    }
    return chance > 0.99 ? "over 99 %" : fmt::format("{:.0f} %", chance * 100.0);
  }

  const Question& asked_;
  const PairRule& rule_;
  DryingClocks& clocks_;
  double deviate_;
};

/// The first limit that the air does not keep until the film is past its critical stage.
std::optional<Finding> outside_limits(const Product& product,
                                      Time at,
                                      double confidence,
                                      DryingClocks& clocks) {
  LaidCoat coat;
  coat.product = &product;
  coat.begun = at;
  coat.ended = at;
  const WaitRule rule{normal_deviate(confidence), at + kHorizon};
  const Time set = coat.past_critical_stage(clocks, rule).value_or(rule.horizon);
  const auto breach = AirLimits(clocks.air(), product).first_breach(at, set);
  if (!breach) {
    return std::nullopt;
  }
  Finding finding;
  finding.kind = VerdictKind::kOutsideLimits;
  finding.text = breach->text;
  if (breach->at > at) {
    finding.text += fmt::format(" ({:.1f} h after it goes on, while it is not yet '{}')",
                                Hours::from_seconds(breach->at - at).hours(),
                                name_of(product.limits.critical_stage));
  }
  finding.source = breach->source;
  take(advice_outside(breach->code), finding);
  return finding;
}

Finding on_bare_wood(const Product& product) {
  Finding finding;
  finding.text = fmt::format("{} on wood, as far as the log knows", product.title);
  return finding;
}

bool is_worse(const Finding& a, const Finding& b) {
  constexpr VerdictKind kWorstFirst[] = {VerdictKind::kForbidden,
                                         VerdictKind::kEarly,
                                         VerdictKind::kLate,
                                         VerdictKind::kUnabraded,
                                         VerdictKind::kOutsideLimits,
                                         VerdictKind::kInWindow};
  return std::find(std::begin(kWorstFirst), std::end(kWorstFirst), a.kind) <
         std::find(std::begin(kWorstFirst), std::end(kWorstFirst), b.kind);
}

}  // namespace

std::string_view name_of(VerdictKind kind) {
  switch (kind) {
    case VerdictKind::kInWindow:
      return "in window";
    case VerdictKind::kEarly:
      return "early";
    case VerdictKind::kLate:
      return "late";
    case VerdictKind::kUnabraded:
      return "not abraded";
    case VerdictKind::kOutsideLimits:
      return "outside limits";
    case VerdictKind::kForbidden:
      break;
  }
  return "never";
}

Result<Verdict> judge_coat(const Product& product,
                           Time at,
                           const LaidCoat* under,
                           bool abraded,
                           double confidence,
                           const RecipeBook& book,
                           const AirRecord& air) {
  DryingClocks clocks(air, under == nullptr ? at : std::min({at, under->begun, under->ended}));
  std::vector<Finding> findings;
  if (under == nullptr) {
    findings.push_back(on_bare_wood(product));
  } else {
    const auto rule = book.pair(*under->product, product);
    if (!rule) {
      return pass_on(rule.error());
    }
    const Question question{product, at, *under, abraded, confidence};
    findings = Judge(question, *rule, clocks).findings();
  }
  if (auto breach = outside_limits(product, at, confidence, clocks)) {
    breach->chance = findings.front().chance;
    findings.push_back(std::move(*breach));
  }
  std::stable_sort(findings.begin(), findings.end(), &is_worse);
  if (findings.front().kind != VerdictKind::kInWindow) {
    findings.erase(
        std::remove_if(findings.begin(),
                       findings.end(),
                       [](const Finding& one) { return one.kind == VerdictKind::kInWindow; }),
        findings.end());
  } else {
    for (const LimitBreach& caution : AirLimits(air, product).cautions(at, at + kSettingWatched)) {
      findings.front().to_do += (findings.front().to_do.empty() ? "" : " ") + caution.text;
    }
  }
  return Verdict{std::move(findings), air.at(at)};
}

}  // namespace coatwright
