#include "plan/recoat_options.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

tl::unexpected<Error> forbidden(const Product& under, const Product& over, const PairRule& rule) {
  std::string text =
      fmt::format("{} must not go over {}: {}", over.title, under.title, rule.reason);
  for (std::size_t i = 0; i < rule.barriers.size(); ++i) {
    text += (i == 0 ? "; it would go with one of these between: " : ", ") + rule.barriers[i];
  }
  return fail(ErrorCode::kOutOfRange, text);
}

/// Which interval of a pair an option uses.
enum class Which { kAsItIs, kAbradedFirst, kAbradedLast };

/// The interval of a pair that an option uses; null when the pair has none for it. Abraded, a coat
/// may go on in any interval: in the first, before a gap in which it would lift, or in the one
/// without a closing or else the latest.
const RecoatInterval* interval_for(const PairRule& rule, Which which) {
  const RecoatInterval* found = nullptr;
  for (const RecoatInterval& interval : rule.intervals) {
    if (interval.condition == RecoatCondition::kNever) {
      continue;
    }
    switch (which) {
      case Which::kAsItIs:
        if (interval.condition == RecoatCondition::kNone) {
          return &interval;
        }
        break;
      case Which::kAbradedFirst:
        return &interval;
      case Which::kAbradedLast:
        found = found == nullptr || !interval.closes ? &interval : found;
        break;
    }
  }
  return found;
}

bool asks_for_abrading(const PairRule& rule) {
  return std::any_of(rule.intervals.begin(), rule.intervals.end(), [](const RecoatInterval& one) {
    return one.condition == RecoatCondition::kAbrade;
  });
}

/// Whether every face with a coat was abraded since; false on bare wood.
bool all_abraded(const std::vector<int>& faces, const PieceState& state) {
  bool coated = false;
  for (const int face : faces) {
    if (state.on(face) && !state.abraded[static_cast<std::size_t>(face)]) {
      return false;
    }
    coated = coated || state.on(face);
  }
  return coated;
}

RecoatChoice choice_of(const LaidCoat& coat, const PairRule& rule, const RecoatInterval& interval) {
  RecoatChoice choice;
  choice.coat = coat;
  choice.opening = coat.adapted(interval.opens);
  choice.closing = interval.closes;
  choice.reason = interval.reason.empty() ? rule.reason : interval.reason;
  choice.dissent = rule.dissent;
  choice.source = interval.source.empty() ? rule.source : interval.source;
  return choice;
}

}  // namespace

WindowDeviates window_deviates(const RecoatChoice& choice, Time at, DryingClocks& clocks) {
  WindowDeviates window{choice.coat.since_end(clocks).opening_deviate(choice.opening, at)};
  window.opening_share = choice.opening.shop_share();
  if (choice.closing) {
    window.closing = choice.coat.since_begin(clocks).closing_deviate(*choice.closing, at);
    window.closing_share = choice.closing->shop_share();
  }
  return window;
}

double chance_in_window(const RecoatChoice& choice, Time at, DryingClocks& clocks) {
  const WindowDeviates window = window_deviates(choice, at, clocks);
  return joint_chance({&window, 1});
}

Result<std::vector<RecoatOption>> recoat_options(const WorkItem& work,
                                                 const PieceState& state,
                                                 const RecipeBook& book) {
  const bool is_abraded = all_abraded(work.faces, state);
  RecoatOption direct;
  RecoatOption abraded;
  abraded.after_abrading = true;
  abraded.abrade_grit = work.abrade_grit;
  abraded.abrading_is_scheduled = !work.abrade_grit.empty() && !is_abraded;
  std::vector<RecoatChoice> before_gap;
  bool has_gap = false;
  bool can_be_direct = work.abrade_grit.empty() && !is_abraded;
  bool can_be_abraded = is_abraded;
  for (const int face : work.faces) {
    const auto& coat = state.on(face);
    if (!coat) {
      continue;
    }
    const auto rule = book.pair(*coat->product, *work.product);
    if (!rule) {
      return pass_on(rule.error());
    }
    const RecoatInterval* as_it_is = interval_for(*rule, Which::kAsItIs);
    const RecoatInterval* after_abrading = interval_for(*rule, Which::kAbradedLast);
    const RecoatInterval* abraded_first = interval_for(*rule, Which::kAbradedFirst);
    if (after_abrading == nullptr) {
      return forbidden(*coat->product, *work.product, *rule);
    }
    if (as_it_is == nullptr) {
      can_be_direct = false;
    } else {
      direct.choices.push_back(choice_of(*coat, *rule, *as_it_is));
    }
    can_be_abraded = can_be_abraded || asks_for_abrading(*rule) || abraded.abrading_is_scheduled;
    if (abraded.abrade_grit.empty()) {
      abraded.abrade_grit = coat->product->abrade_grit;
    }
    abraded.choices.push_back(choice_of(*coat, *rule, *after_abrading));
    before_gap.push_back(choice_of(*coat, *rule, *abraded_first));
    has_gap = has_gap || abraded_first != after_abrading;
  }
  std::vector<RecoatOption> options;
  const bool is_wanted = is_abraded || abraded.abrading_is_scheduled;
  if (is_abraded) {
    abraded.abrade_grit.clear();
  }
  // A coat that is abraded only for want of a window has missed the first one.
  if (has_gap && is_wanted) {
    RecoatOption first = abraded;
    first.choices = std::move(before_gap);
    options.push_back(std::move(first));
  }
  if (is_abraded) {
    options.push_back(std::move(abraded));
    return options;
  }
  if (can_be_direct) {
    options.push_back(std::move(direct));
  }
  if (can_be_abraded && !abraded.abrade_grit.empty()) {
    options.push_back(std::move(abraded));
  }
  if (options.empty()) {
    return fail(ErrorCode::kInputFile,
                fmt::format("{} names no abrade_grit, but must be abraded before the next coat",
                            state.on(work.faces.front())->product->title));
  }
  return options;
}

}  // namespace coatwright
