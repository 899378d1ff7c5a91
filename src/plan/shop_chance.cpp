#include "plan/shop_chance.h"

#include <algorithm>

#include "plan/kept_starts.h"

namespace coatwright {
namespace {

constexpr double kChanceGrain = 1.0 / 32.0;
/// Nodes of one short search, by activity.
constexpr std::int64_t kNodes = 4;

/// Whether a plan at another confidence still ends in time.
class OtherConfidence {
 public:
  OtherConfidence(const ShopRequest& request,
                  const FoundShop& found,
                  const RecipeBook& book,
                  const AirRecord& air)
      : found_(found), request_(request), book_(book), air_(air) {}

  bool fits_at(double confidence) {
    request_.confidence = confidence;
    DryingClocks clocks(air_, first_moment(request_));
    const WaitRule rule{normal_deviate(confidence), request_.horizon};
    const TickScale ticks(request_.from);
    StageLags lags(clocks, rule, confidence, ticks);
    AirForWork for_work(clocks, rule, ticks);
    const auto shop = parts_of(request_, book_, clocks);
    if (!shop) {
      return false;
    }
    const ShopContext context{request_, *shop, book_, clocks, lags, for_work, ticks};
    PartChains chains;
    for (std::size_t part = 0; part < shop->parts.size(); ++part) {
      auto chain = chain_of(shop->parts[part], found_.choice.parts[part], book_, clocks);
      if (!chain || chain->alone.stopped_by) {
        return false;
      }
      chains.push_back(std::make_shared<PartChain>(std::move(*chain)));
    }
    const Time last = latest_start();
    auto model = compile(context, std::move(chains), found_.choice.guns, last);
    if (!model) {
      return false;
    }
    const StartTimes start_from = carried_over(found_.model, found_.schedule, *model);
    const auto count = static_cast<std::int64_t>(model->project.activities.size());
    const SearchResult solved =
        solve(model->project, {kNodes * count, request_.seed, {}}, &start_from);
    return solved.schedule && solved.cost.lateness == 0;
  }

 private:
  /// A plan that fits begins nothing after the last date, where all pieces have one.
  [[nodiscard]] Time latest_start() const {
    Time latest = request_.from;
    for (const JobRequest& job : request_.jobs) {
      if (!job.due) {
        return found_.model.ticks.time(found_.model.project.horizon);
      }
      latest = std::max(latest, *job.due);
    }
    return std::min(latest, request_.horizon);
  }

  const FoundShop& found_;
  ShopRequest request_;
  const RecipeBook& book_;
  const AirRecord& air_;
};

}  // namespace

double chance_by_dates(const ShopRequest& request,
                       const FoundShop& found,
                       bool fits,
                       const RecipeBook& book,
                       const AirRecord& air,
                       const std::function<bool()>& stop) {
  OtherConfidence other(request, found, book, air);
  double sure = fits ? request.confidence : 0.0;
  double unsure = fits ? 1.0 : request.confidence;
  while (unsure - sure > kChanceGrain && !(stop && stop())) {
    const double middle = (sure + unsure) / 2.0;
    (other.fits_at(middle) ? sure : unsure) = middle;
  }
  return sure;
}

}  // namespace coatwright
