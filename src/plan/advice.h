#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "plan/advice_change.h"
#include "plan/plan.h"
#include "plan/shop_request.h"
#include "recipe/recipe_book.h"

/// Ways to make a date: the work planned again in full with one thing changed at a time.
namespace coatwright {

/// Plans a request in full. Pure: the same request and air give the same plan.
using Replan = std::function<Result<Plan>(const ShopRequest&, const AirRecord&)>;

/// How changes are tried.
struct Replanning {
  // A plain way to plan is a whole one.
  Replanning(Replan plan) : whole(std::move(plan)) {}  // NOLINT(google-explicit-constructor)

  Replan whole;  ///< A plan with all that is shown of it.
  Replan dates;  ///< In less time: when the pieces end. Empty: `whole` is used.
  /// False only where no plan meets all dates. Empty: that is not known beforehand.
  std::function<bool(const ShopRequest&, const AirRecord&)> may_meet_dates;
};

/// What a long search for ways tells and asks meanwhile.
struct AdviceWatch {
  std::function<bool()> stop = {};                 ///< True ends it with what was found so far.
  std::function<void(int replans)> progress = {};  ///< After each plan that was made.
};

struct AdviceRequest {
  ShopRequest shop;                   ///< Its jobs' dates are the ones to be made.
  std::vector<StaffedHours> earlier;  ///< From shop.made_at up to shop.from, in order.
  /// How the wood of a piece was left, by its name; planed where it is not here.
  std::map<std::string, WoodSurface> surfaces;
};

/// Changes with which the dates are met.
struct Way {
  std::vector<Change> changes;            ///< One, or two together.
  Plan plan;                              ///< Made with them.
  Hours presence = Hours::from_hours(0);  ///< Of people, added up to the plan's end.
};

/// A kind of change that does not do it alone.
struct InVain {
  Change best;                 ///< The one of its kind that ends earliest.
  std::optional<Time> finish;  ///< None: not even then does every step find its place.
};

/// What a little more of something buys, whether or not the date is met.
struct Gain {
  Change change;
  std::optional<Time> finish;
  std::chrono::seconds earlier{0};    ///< The end; below 0: later.
  std::chrono::seconds less_late{0};  ///< Summed over the pieces.
};

/// A piece's own end where it is late.
struct LaterDate {
  std::string piece;
  std::optional<Time> due;
  std::optional<Time> finish;
};

struct DateAdvice {
  Plan plan;                         ///< As it stands.
  std::vector<Way> ways;             ///< The least change first; none where the dates are met.
  std::vector<InVain> in_vain;       ///< None where the dates are met.
  std::vector<LaterDate> late;       ///< The pieces that are late as it stands.
  std::optional<Time> latest_start;  ///< The dates hold from there, and not from kStartGrain later.
  std::vector<Gain> gains;           ///< Most first.
  int replans = 0;
  bool stopped = false;  ///< By the watch: more may be found.
};

/// Starts are tried so far apart, while somebody is there.
inline constexpr std::chrono::minutes kStartGrain{30};

/// Tries one change after another. Each kind is scanned from its least amount, since more of it
/// need not help: warmth closes windows too. Where no single change meets the dates, two are tried
/// together. The confidence is never lowered.
/// Errors: those of the first plan; a change that cannot be planned is no way.
[[nodiscard]] Result<DateAdvice> advise(const AdviceRequest& request,
                                        const RecipeBook& book,
                                        const AirRecord& air,
                                        const Replanning& replanning,
                                        const AdviceWatch& watch = {});

}  // namespace coatwright
