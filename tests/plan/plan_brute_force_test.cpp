#include <algorithm>
#include <array>
#include <map>

#include <catch2/catch.hpp>

#include "plan/chain.h"
#include "plan/own_drying.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// Every start of every coat on the five-minute grid is tried, by code of its own, for one face and
/// a few coats: what the planner calls the best must be the best.
namespace {

/// A session in minutes after its start.
struct Session {
  int apply = 0;
  int wet_end = 0;
  int length = 0;
};

/// A coat at a start, in minutes after the request's.
struct Laid {
  int begun;
  int wet_end;
  int session_end;
  bool operator<(const Laid& o) const {
    return std::tie(begun, wet_end, session_end) < std::tie(o.begun, o.wet_end, o.session_end);
  }
};

class Exhaustive {
 public:
  /// @param relaxed windows never close and abrading that is not scheduled is left out.
  Exhaustive(const PlanRequest& request, const AirRecord& air, bool relaxed)
      : request_(request),
        walk_(air, request.from),
        relaxed_(relaxed),
        span_(static_cast<int>((request.horizon - request.from).count() / 60)) {}

  /// @return minutes after the start at which the best of all start vectors ends.
  std::optional<int> best() {
    std::vector<Laid> reachable;
    const Product* under = nullptr;
    std::string abrade;
    for (const ScheduleStep& step : request_.piece.schedule->steps) {
      if (step.kind == ScheduleStepKind::kAbrade) {
        abrade = step.grits.front();
        continue;
      }
      for (int coat = 0; coat < step.coats; ++coat) {
        reachable = next_coats(reachable, under, step, !abrade.empty());
        under = *book().product(step.product);
        abrade.clear();
      }
    }
    std::optional<int> end;
    for (const Laid& last : reachable) {
      end = end ? std::min(*end, last.session_end) : last.session_end;
    }
    return end;
  }

 private:
  std::vector<Laid> next_coats(const std::vector<Laid>& reachable,
                               const Product* under,
                               const ScheduleStep& step,
                               bool abrade) {
    const Product& over = **book().product(step.product);
    std::vector<Laid> next;
    for (const bool abraded : {false, true}) {
      if (abrade && !abraded) {
        continue;
      }
      if (abraded && !abrade &&
          (under == nullptr || relaxed_ || !asks_for_abrading(*under, over))) {
        continue;
      }
      const Session session = session_of(step, over, abraded);
      std::vector<Ways> ways;
      for (const Laid& before : reachable) {
        ways.push_back(ways_after(before, *under, over, abraded));
      }
      for (int start = 0; start < span_; start += 5) {
        if (!inside_opening(start, session.length) || !air_is_kept(over, start, session)) {
          continue;
        }
        const bool follows =
            under == nullptr || std::any_of(ways.begin(), ways.end(), [&](const Ways& one) {
              return may_follow(one, *under, start, session);
            });
        if (follows) {
          next.push_back({start + session.apply, start + session.wet_end, start + session.length});
        }
      }
    }
    std::sort(next.begin(), next.end());
    return next;
  }

  /// How a coat may follow one that lies there.
  struct Ways {
    Laid before;
    double start_from;                                            ///< Of the session, in minutes.
    std::vector<std::pair<double, const RecoatInterval*>> opens;  ///< Null: never closes.
  };

  Ways ways_after(const Laid& before, const Product& under, const Product& over, bool abraded) {
    Ways ways{before, static_cast<double>(before.session_end), {}};
    if (abraded) {
      ways.start_from = std::max({ways.start_from,
                                  reached(before, under, Stage::kSandable),
                                  reached(before, under, Stage::kDustFree)});
    }
    for (const RecoatInterval& interval : rule_of(under, over).intervals) {
      const bool as_it_is = interval.condition == RecoatCondition::kNone;
      const bool usable = abraded ? !interval.closes : relaxed_ || as_it_is;
      if (usable && interval.condition != RecoatCondition::kNever) {
        const bool closes = interval.closes && !relaxed_ && !abraded;
        ways.opens.emplace_back(opens(before, under, interval.opens), closes ? &interval : nullptr);
      }
    }
    return ways;
  }

  bool may_follow(const Ways& ways, const Product& under, int start, const Session& session) {
    const int apply = start + session.apply;
    return start >= ways.start_from &&
           std::any_of(ways.opens.begin(), ways.opens.end(), [&](const auto& way) {
             return way.first <= apply &&
                    (way.second == nullptr ||
                     inside(ways.before, under, *way.second, apply, start + session.wet_end));
           });
  }

  bool inside(const Laid& before,
              const Product& under,
              const RecoatInterval& interval,
              int apply,
              int wet_end) {
    const Phase& closing = interval.closes->phases.back();
    const double low = closing.duration.low().hours();
    const double high = closing.duration.high().hours();
    const double closes = own::quantile(low, high, 1.0 - request_.confidence);
    const double run = std::max(hours_of(closing.law, std::nullopt, before.begun, wet_end),
                                (wet_end - before.begun) / 60.0);
    if (run > closes) {
      return false;
    }
    const double ran = std::max(hours_of(closing.law, std::nullopt, before.begun, apply),
                                (apply - before.begun) / 60.0);
    const Phase& opening = interval.opens.phases.back();
    REQUIRE(interval.opens.phases.size() == 1);
    const double earned = hours_of(opening.law, gate(under), before.wet_end, apply);
    return joint_chance(deviate(opening.duration, earned), deviate(closing.duration, ran)) >=
           request_.confidence;
  }

  static double deviate(const DurationRange& range, double reached) {
    const double low = std::log(range.low().hours());
    const double high = std::log(range.high().hours());
    return (std::log(reached) - (low + high) / 2.0) / (high - low) * 2.0 * own::normal_deviate(0.9);
  }

  /// docs/formulas.md, Joint chance, by the midpoint rule.
  static double joint_chance(double opening, double closing) {
    const double half = std::sqrt(0.5);
    double sum = 0.0;
    for (int i = 0; i < 60; ++i) {
      const double u = -6.0 + 12.0 * (i + 0.5) / 60.0;
      sum += 12.0 / 60.0 * std::exp(-u * u / 2.0) / std::sqrt(6.283185307179586) *
             own::normal_probability((opening - half * u) / half) *
             own::normal_probability(-(closing - half * u) / half);
    }
    return sum;
  }

  [[nodiscard]] Time moment(int minute) const { return request_.from + minutes(minute); }

  /// @return minutes after the request's start; far away when never.
  double opens(const Laid& before, const Product& under, const StageTiming& timing) {
    Time at = moment(before.wet_end);
    for (const Phase& phase : timing.phases) {
      const double needed = own::quantile(
          phase.duration.low().hours(), phase.duration.high().hours(), request_.confidence);
      const auto reached = walk_.reached(phase.law, gate(under), at, needed, moment(span_));
      if (!reached) {
        return 1e9;
      }
      at = *reached;
    }
    return static_cast<double>((at - request_.from).count()) / 60.0;
  }

  double reached(const Laid& before, const Product& under, Stage stage) {
    const DryingStage* drying = under.stage(stage);
    return drying == nullptr ? 0.0 : opens(before, under, drying->timing);
  }

  bool air_is_kept(const Product& over, int start, const Session& session) {
    const Laid laid{start + session.apply, start + session.wet_end, 0};
    const double until = opens(laid, over, over.stage(over.limits.critical_stage)->timing);
    for (int at = laid.begun; at <= until && at < span_; at += 5) {
      const auto air = walk_.at(moment(at));
      if (air.kelvin < over.limits.temperature_min->value.kelvin() - 0.01 ||
          air.humidity > over.limits.humidity_max->value.fraction() + 0.0005) {
        return false;
      }
    }
    return until < span_;
  }

  [[nodiscard]] bool inside_opening(int start, int length) const {
    const Time begin = moment(start);
    return std::any_of(request_.hours.begin(), request_.hours.end(), [&](const Interval& one) {
      return begin >= one.start && begin + minutes(length) <= one.end;
    });
  }

  [[nodiscard]] int minutes_for(const std::string& operation) const {
    const WorkingTime& time = (*book().working_times())->at(operation);
    const double each =
        time.low_minutes_per_m2 <= 0.0
            ? 0.0
            : own::quantile(time.low_minutes_per_m2, time.high_minutes_per_m2, request_.confidence);
    return static_cast<int>(std::max(
        1.0, std::ceil(time.fixed_minutes + each * request_.piece.area.square_metres() - 1e-6)));
  }

  [[nodiscard]] Session session_of(const ScheduleStep& step,
                                   const Product& over,
                                   bool abraded) const {
    const bool sprayed = step.method == Method::kSpray;
    const int abrade = abraded ? minutes_for("abrade") : 0;
    Session session;
    session.apply = abrade + minutes_for("clean") + minutes_for(sprayed ? "gun-set-up" : "mix");
    session.apply = abraded ? std::max(session.apply, abrade + 15) : session.apply;
    const std::string brush = over.oxidises ? "brush" : "brush-waterborne";
    session.wet_end = session.apply + minutes_for(sprayed                       ? "spray"
                                                  : step.method == Method::kPad ? "pad"
                                                                                : brush);
    session.length = session.wet_end + (over.hazards.rags_self_heat ? minutes_for("rags") : 0) +
                     (sprayed                         ? minutes_for("gun-clean-up")
                      : step.method == Method::kBrush ? minutes_for("brush-clean")
                                                      : 0);
    return session;
  }

  static const PairRule& rule_of(const Product& under, const Product& over) {
    static std::map<std::pair<std::string, std::string>, PairRule>
        known;  // intervals are pointed to
    return known.try_emplace({under.name, over.name}, book().pair(under, over).value())
        .first->second;
  }
  static bool asks_for_abrading(const Product& under, const Product& over) {
    const PairRule& rule = rule_of(under, over);
    return std::any_of(rule.intervals.begin(), rule.intervals.end(), [](const RecoatInterval& one) {
      return one.condition == RecoatCondition::kAbrade;
    });
  }
  static std::optional<double> gate(const Product& product) {
    const auto& minimum = product.limits.temperature_min;
    return minimum ? std::optional(minimum->value.kelvin()) : std::nullopt;
  }

  double hours_of(const RateLaw& law, std::optional<double> gate, int from, int to) {
    return walk_.earned(law, gate, moment(from), moment(to));
  }

  const PlanRequest& request_;
  own::Walk walk_;
  bool relaxed_;
  int span_;
};

struct Case {
  Schedule schedule;
  std::string week;
  std::string usual_day;
  double confidence;
};

std::vector<Case> cases() {
  const Schedule varnish = schedule_of({coats("oil-modified-varnish", Method::kBrush, 2)});
  const Schedule lacquer = schedule_of({coats("nitrocellulose-sanding-sealer", Method::kSpray, 1),
                                        abrading("P320"),
                                        coats("nitrocellulose-lacquer-spray", Method::kSpray, 2)});
  const Schedule shellac = schedule_of({coats("dewaxed-shellac", Method::kPad, 2),
                                        abrading("P320"),
                                        coats("oil-modified-varnish", Method::kBrush, 1)});
  const std::string days = "Mon-Sun 8:00-12:00, 13:00-17:30";
  const std::string evenings = "Mon-Fri 17:30-20:00; Sat 9:30-14:00";
  const std::string mild = "6:00 17C 50%; 14:00 23C 40%";
  const std::string cold_nights = "6:00 10C 55%; 14:00 22C 45%; 20:00 14C 50%";
  const std::string damp_mornings = "7:00 18C 62%; 10:00 18C 62%; 13:00 21C 50%; 22:00 18C 55%";
  std::vector<Case> all;
  for (const Schedule& schedule : {varnish, lacquer, shellac}) {
    for (const std::string& week : {days, evenings}) {
      for (const std::string& air : {mild, cold_nights, damp_mornings}) {
        all.push_back({schedule, week, air, 0.9});
        all.push_back({schedule, week, air, 0.65});
      }
    }
  }
  return all;
}

}  // namespace

TEST_CASE("No choice of starts ends before the bound, and a proven plan is the best", "[plan]") {
  int proven = 0;
  int number = 0;
  for (const Case& one : cases()) {
    Asked asked;
    asked.week = one.week;
    asked.confidence = one.confidence;
    asked.square_metres = 0.5 + 0.25 * (number % 7);
    asked.given_up_after = hours(0);
    const Time start = at("2027-06-07T06:00:00-04:00") + hours(5 * (number % 9));
    PlanRequest all = request(asked, start, start + hours(24 * 6), zone());
    all.piece.schedule = &one.schedule;
    const AirRecord air = usual_air(one.usual_day, zone());
    const auto plan = make_plan(all, book(), air);
    REQUIRE(plan);
    INFO("case " << number << ": " << one.schedule.steps.front().product << ", " << one.week << ", "
                 << one.usual_day << ", confidence " << one.confidence << ", stopped by "
                 << plan->search.stopped_by);
    const auto in_minutes = [&](const std::optional<Time>& time) {
      return time ? std::optional<int>(static_cast<int>((*time - start).count() / 60))
                  : std::nullopt;
    };
    const auto relaxed = Exhaustive(all, air, true).best();
    const auto best = Exhaustive(all, air, false).best();
    if (relaxed) {
      REQUIRE(plan->bound);
      CHECK(*in_minutes(plan->bound) <= *relaxed);
    }
    CHECK(plan->finish.has_value() == best.has_value());
    if (plan->finish && best) {
      CHECK(*in_minutes(plan->finish) >= *best);
      if (plan->search.stopped_by == "proof") {
        CHECK(*in_minutes(plan->finish) == *best);
        ++proven;
      }
    }
    ++number;
  }
  CHECK(proven > 12);
}

namespace {

/// The works of one face, done on two faces in this order.
std::vector<WorkItem> in_order(const std::vector<WorkItem>& works, const std::vector<int>& faces) {
  std::vector<WorkItem> ordered;
  std::size_t next[2] = {0, 0};
  int up = -1;
  for (const int face : faces) {
    if (up >= 0 && face != up) {
      WorkItem flip;
      flip.kind = WorkItem::Kind::kFlip;
      flip.faces = {face};
      ordered.push_back(flip);
    }
    up = face;
    WorkItem work = works[next[face]++];
    work.faces = {face};
    ordered.push_back(work);
  }
  return ordered;
}

}  // namespace

TEST_CASE("No order of turning over that is planned ends before the bound", "[plan]") {
  const Schedule schedule = schedule_of({coats("oil-wiping-stain", Method::kWipe, 1),
                                         coats("nitrocellulose-sanding-sealer", Method::kSpray, 1),
                                         coats("nitrocellulose-lacquer-spray", Method::kSpray, 1)});
  Asked asked;
  asked.faces = Faces::kTwo;
  const Time start = at("2027-06-07T08:00:00-04:00");
  PlanRequest all = request(asked, start, start + hours(24 * 14), zone());
  all.piece.schedule = &schedule;
  const AirRecord air = constant_air(20, 45, zone());
  const auto plan = make_plan(all, book(), air);
  REQUIRE(plan);
  REQUIRE(plan->bound);
  const auto works = scheduled_works(schedule, book());
  REQUIRE(works);
  const Progress fresh = progress_of(all.piece, *works, start);
  // By turns, with one coat of each product, and each coat begun on the face that is up. Of all
  // orders some end a day sooner, such as all coats on one face and then all on the other.
  for (const std::vector<int>& faces : {std::vector{0, 1, 0, 1, 0, 1}, {0, 1, 1, 0, 0, 1}}) {
    DryingClocks clocks(air, start - hours(3));
    const auto chain =
        place_chain(all, fresh, in_order(*works, faces), Strictness::kPlan, book(), clocks);
    REQUIRE(chain);
    INFO("faces " << faces[0] << faces[1] << faces[2] << faces[3] << faces[4] << faces[5]);
    if (chain->finish) {
      CHECK(show_utc(*plan->bound) <= show_utc(*chain->finish));
    }
  }
}
