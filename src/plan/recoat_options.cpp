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

/// The interval of a pair that an option uses; null when the pair has none for it.
/// Abraded, a coat may go on in any interval, so the one without a closing or else the latest
/// serves.
const RecoatInterval* interval_for(const PairRule& rule, bool abraded) {
  const RecoatInterval* found = nullptr;
  for (const RecoatInterval& interval : rule.intervals) {
    if (interval.condition == RecoatCondition::kNever) {
      continue;
    }
    if (!abraded && interval.condition == RecoatCondition::kNone) {
      return &interval;
    }
    if (abraded && (found == nullptr || !interval.closes)) {
      found = &interval;
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

Result<std::vector<RecoatOption>> recoat_options(const WorkItem& work,
                                                 const PieceState& state,
                                                 const RecipeBook& book) {
  const bool is_abraded = all_abraded(work.faces, state);
  RecoatOption direct;
  RecoatOption abraded;
  abraded.after_abrading = true;
  abraded.abrade_grit = work.abrade_grit;
  abraded.abrading_is_scheduled = !work.abrade_grit.empty() && !is_abraded;
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
    const RecoatInterval* as_it_is = interval_for(*rule, false);
    const RecoatInterval* after_abrading = interval_for(*rule, true);
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
  }
  if (is_abraded) {
    abraded.abrade_grit.clear();
    return std::vector{std::move(abraded)};
  }
  std::vector<RecoatOption> options;
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
