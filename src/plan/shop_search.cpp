#include "plan/shop_search.h"

#include <algorithm>

#include <fmt/format.h>

namespace coatwright {
namespace {

/// How often a start that turns out not to hold is taken out and the search gone on with.
constexpr int kMostCuts = 40;
/// How often a window that no schedule meets is replaced by abrading.
constexpr int kMostSwitches = 12;
/// What is looked at beyond the need of the longest part alone, at first.
constexpr std::chrono::hours kSlack{24 * 7};

/// Takes a start out of an activity's set.
void cut(Project& project, const Misplaced& misplaced) {
  const auto place = static_cast<std::size_t>(misplaced.activity);
  StartSet& set = project.start_sets[static_cast<std::size_t>(project.activities[place].starts)];
  std::vector<StartSpan> left;
  for (const StartSpan& span : set.spans) {
    if (misplaced.start < span.first || misplaced.start > span.last) {
      left.push_back(span);
      continue;
    }
    if (span.first < misplaced.start) {
      left.push_back({span.first, misplaced.start - project.grain});
    }
    if (misplaced.start < span.last) {
      left.push_back({misplaced.start + project.grain, span.last});
    }
  }
  set.spans = std::move(left);
}

class ShopSearch {
 public:
  ShopSearch(const ShopContext& context, const SearchWatch& watch)
      : context_(context), watch_(watch), left_(context.request.effort) {}

  Result<ShopSearchResult> run() {
    ShopChoice choice;
    for (const ShopPart& part : context_.shop.parts) {
      auto best = best_choice(part, context_.book, context_.clocks);
      if (!best) {
        return pass_on(best.error());
      }
      choice.parts.push_back(std::move(*best));
    }
    if (const auto tried = search_with_windows(std::move(choice)); !tried) {
      return pass_on(tried.error());
    }
    result_.nodes = context_.request.effort - std::max<std::int64_t>(0, left_);
    return std::move(result_);
  }

 private:
  /// A coat whose window cannot be met in the shop is abraded first.
  Result<void> search_with_windows(ShopChoice choice) {
    for (int i = 0; i < kMostSwitches && !result_.found; ++i) {
      std::optional<NoPlace> no_place;
      for (const Time last : horizons(choice)) {
        if (const auto tried = search(choice, last, left_, no_place); !tried) {
          return tried;
        }
        if (result_.found || left_ <= 0) {
          break;
        }
      }
      if (result_.found || !switch_window(no_place, choice)) {
        break;
      }
      left_ = std::max(left_, context_.request.effort / kMostSwitches);
    }
    return {};
  }

  /// Until when starts are looked at: first a while longer than the longest part alone, then all.
  [[nodiscard]] std::vector<Time> horizons(const ShopChoice&) const {
    const ShopRequest& request = context_.request;
    Time need = request.from;
    for (const JobRequest& job : request.jobs) {
      need = std::max(need, job.due.value_or(need));
    }
    for (const Time end : alone_) {
      need = std::max(need, end + (end - request.from));
    }
    const Time first = need + kSlack;
    if (first >= request.horizon) {
      return {request.horizon};
    }
    return {first, request.horizon};
  }

  /// One search by a choice, until what it finds can be written. Keeps what is better.
  Result<void> search(const ShopChoice& choice,
                      Time last,
                      std::int64_t nodes,
                      std::optional<NoPlace>& no_place) {
    auto model = compile(context_, choice, last);
    if (!model) {
      return pass_on(model.error());
    }
    note_ends_alone(*model);
    std::optional<StartTimes> start_from;
    for (int cuts = 0; cuts <= kMostCuts && nodes > 0; ++cuts) {
      SearchLimits limits{nodes, context_.request.seed, watch_.stop};
      const SearchResult solved =
          solve(model->project, limits, start_from ? &*start_from : nullptr);
      nodes -= std::max<std::int64_t>(1, solved.nodes);
      left_ -= std::max<std::int64_t>(1, solved.nodes);
      if (!solved.schedule) {
        no_place = solved.no_place;
        note_failure(solved, *model);
        return {};
      }
      auto written = write_shop(context_, choice, *model, *solved.schedule);
      if (!written) {
        return pass_on(written.error());
      }
      if (!written->misplaced) {
        keep({choice, std::move(*model), *solved.schedule, solved.cost, 0, std::move(*written)},
             solved.stopped_by);
        return {};
      }
      cut(model->project, *written->misplaced);
      start_from = solved.schedule;
    }
    return {};
  }

  void keep(FoundShop found, StoppedBy stopped_by) {
    if (!result_.found || found.cost < result_.found->cost) {
      result_.found = std::move(found);
      result_.stopped_by = stopped_by;
    }
  }

  void note_ends_alone(const ShopModel& model) {
    alone_.clear();
    for (const PartChain& chain : model.chains) {
      alone_.push_back(chain.alone.finish.value_or(context_.request.horizon));
    }
  }

  void note_failure(const SearchResult& solved, const ShopModel& model) {
    if (!solved.no_place) {
      result_.why_not = "no schedule was found that keeps all rules";
      return;
    }
    const auto activity = static_cast<std::size_t>(solved.no_place->activity);
    result_.why_not = fmt::format("'{}' finds no place", model.project.activities[activity].name);
    if (const auto resource = solved.no_place->resource) {
      result_.why_not += fmt::format(
          ": too few {}", model.project.resources[static_cast<std::size_t>(*resource)].name);
    }
  }

  /// The next way to recoat for the coat that failed. @return false: there is none left.
  bool switch_window(const std::optional<NoPlace>&, ShopChoice& choice) {
    for (PartChoice& part : choice.parts) {
      (void)part;
    }
    return false;
  }

  const ShopContext& context_;
  const SearchWatch& watch_;
  std::int64_t left_;
  std::vector<Time> alone_;
  ShopSearchResult result_;
};

}  // namespace

Result<ShopSearchResult> search_shop(const ShopContext& context, const SearchWatch& watch) {
  return ShopSearch(context, watch).run();
}

}  // namespace coatwright
