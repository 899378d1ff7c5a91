#include "plan/verdict.h"

#include <random>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "plan/own_verdict.h"
#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

using own_verdict::broken_rules;
using own_verdict::Coat;
using own_verdict::of_kind;
using own_verdict::Reckoning;

const Time kMonday = at("2027-06-07T08:00:00-04:00");

const Product& product(const std::string& name) {
  return **book().product(name);
}

bool is_never(const PairRule& rule) {
  return std::all_of(rule.intervals.begin(), rule.intervals.end(), [](const auto& interval) {
    return interval.condition == RecoatCondition::kNever;
  });
}

struct Pair {
  const Product& under;
  const Product& over;
  PairRule rule;
};

/// Every pair of the built-in products of which something is known.
std::vector<Pair> known_pairs(bool never) {
  std::vector<Pair> pairs;
  for (const std::string& under : book().product_names()) {
    for (const std::string& over : book().product_names()) {
      const auto rule = book().pair(product(under), product(over));
      if (rule && is_never(*rule) == never) {
        pairs.push_back({product(under), product(over), *rule});
      }
    }
  }
  return pairs;
}

LaidCoat laid(const Coat& coat) {
  LaidCoat one;
  one.product = coat.product;
  one.begun = coat.begun;
  one.ended = coat.ended;
  one.film_ratio = coat.film_ratio;
  return one;
}

Verdict judge(const Product& over,
              Time at,
              const Coat& under,
              const AirRecord& air,
              bool abraded = false,
              double confidence = 0.9) {
  const LaidCoat beneath = laid(under);
  const auto verdict = judge_coat(over, at, &beneath, abraded, confidence, book(), air);
  REQUIRE(verdict);
  return *verdict;
}

/// Compares a verdict with our own reckoning. Returns a sentence for each difference.
std::vector<std::string> differences(const Verdict& verdict,
                                     const own_verdict::Expected& expected,
                                     std::optional<bool> keeps_limits,
                                     Time at) {
  std::vector<std::string> found;
  const Finding* outside = of_kind(verdict, VerdictKind::kOutsideLimits);
  const bool broken = outside != nullptr;
  if (keeps_limits && *keeps_limits == broken) {
    found.push_back(broken ? "the limits are kept, not: " + outside->text
                           : "the limits are not kept");
  }
  if (expected.on_edge) {
    return found;
  }
  const bool unabraded = of_kind(verdict, VerdictKind::kUnabraded) != nullptr;
  if (unabraded != expected.unabraded) {
    found.push_back(unabraded ? "needs no abrading" : "must be abraded");
  }
  const Finding* finding = of_kind(verdict, expected.kind);
  if (finding == nullptr) {
    // An open window is not said where the limits or the abrading are at fault.
    if (expected.kind != VerdictKind::kInWindow || !(broken || unabraded)) {
      found.push_back(
          fmt::format("should be {}, not {}", name_of(expected.kind), name_of(verdict.kind())));
    }
    return found;
  }
  for (const VerdictKind other :
       {VerdictKind::kEarly, VerdictKind::kLate, VerdictKind::kForbidden}) {
    if (other != expected.kind && of_kind(verdict, other) != nullptr) {
      found.push_back(fmt::format("should not be {}", name_of(other)));
    }
  }
  if (std::abs(finding->chance - expected.chance) > own_verdict::kChanceSlack) {
    found.push_back(fmt::format("chance {}, not {}", expected.chance, finding->chance));
  }
  if (finding->moment.has_value() != expected.moment.has_value()) {
    found.push_back(expected.moment ? "has a moment" : "has no moment");
    return found;
  }
  const seconds by = expected.kind == VerdictKind::kInWindow || !expected.moment
                         ? seconds(0)
                         : std::chrono::abs(*expected.moment - at);
  if (std::chrono::abs(finding->by - by) > own_verdict::kSlack) {
    found.push_back(fmt::format("by {} s, not {} s", by.count(), finding->by.count()));
  }
  if (expected.moment &&
      std::chrono::abs(*expected.moment - *finding->moment) > own_verdict::kSlack) {
    found.push_back(
        fmt::format("moment {}, not {}", show_utc(*expected.moment), show_utc(*finding->moment)));
  }
  return found;
}

void check_none(const std::vector<std::string>& faults) {
  for (const std::string& fault : faults) {
    UNSCOPED_INFO(fault);
  }
  CHECK(faults.empty());
}

/// How often each kind was met, so that a loop that proves nothing fails.
using Seen = std::map<VerdictKind, int>;

void compare(const Pair& pair,
             const Coat& coat,
             Time at,
             bool abraded,
             double confidence,
             const AirRecord& air,
             Reckoning& reckoning,
             Seen& seen) {
  INFO(pair.over.name << " over " << pair.under.name << (abraded ? ", abraded, " : ", ")
                      << (at - coat.ended).count() / 60 << " min after it, film " << coat.film_ratio
                      << ", confidence " << confidence);
  const Verdict verdict = judge(pair.over, at, coat, air, abraded, confidence);
  check_none(broken_rules(verdict));
  check_none(differences(verdict,
                         own_verdict::verdict(reckoning, coat, pair.rule, at, abraded, confidence),
                         reckoning.keeps_limits(pair.over, at, confidence),
                         at));
  for (const Finding& finding : verdict.findings) {
    ++seen[finding.kind];
  }
}

/// Cold nights, below every minimum, warm afternoons, and a logger that was off for some hours.
AirRecord swinging_air() {
  std::vector<AirEntry> entries;
  for (int hour = -10; hour < 60; ++hour) {
    if (hour > 20 && hour < 27) {
      continue;
    }
    const double day = std::sin((hour - 2) / 24.0 * 6.2832);
    entries.push_back(forecast(kMonday + hours(hour), 15.0 + 7.0 * day, 52.0 - 14.0 * day));
    entries.back().origin = AirOrigin::kReading;
  }
  return {entries, *UsualDay::parse("6:00 8C 65%; 14:00 25C 40%; 22:00 15C 55%"), zone()};
}

/// Moments about the edges of the windows, and well away from them.
std::vector<Time> moments(const Pair& pair, const Coat& coat, Reckoning& reckoning) {
  std::vector<Time> times = {coat.ended - minutes(40),
                             coat.ended + minutes(7),
                             coat.ended + hours(3),
                             coat.ended + hours(26),
                             coat.ended + hours(24 * 8)};
  for (const RecoatInterval& interval : pair.rule.intervals) {
    const auto window = reckoning.window(coat, interval, 0.9, coat.ended);
    for (const auto& edge : {window.opens, window.closes}) {
      if (edge && *edge < coat.ended + hours(24 * 20)) {
        times.insert(times.end(), {*edge - minutes(3), *edge + minutes(3)});
      }
    }
  }
  return times;
}

}  // namespace

// EVIDENCE: Sheppard 1899, from memory: P(X <= 0, Y <= 0) = 1/4 + asin(r) / (2 pi), 1/3 for r = 1/2
TEST_CASE("Our own chance of being inside a window agrees with a known integral", "[plan]") {
  CHECK(own_verdict::chance_of_both(0.0, 0.0) == Approx(0.5 - 1.0 / 3.0).margin(1e-5));
  CHECK(own_verdict::chance_of_both(8.0, 1.2815515655) == Approx(0.1).margin(1e-4));
}

namespace {

/// Judges one pair of every so many in one of three airs: mild, cold and damp, or swinging.
void judge_pairs(std::size_t air, std::size_t every) {
  const AirRecord record = air == 0   ? constant_air(20, 50, zone())
                           : air == 1 ? constant_air(12, 70, zone())
                                      : swinging_air();
  INFO("air " << air);
  Reckoning reckoning(record, kMonday - hours(6));
  Seen seen;
  const auto pairs = known_pairs(false);
  REQUIRE(pairs.size() > 40);
  int judged = 0;
  for (std::size_t i = air % every; i < pairs.size(); i += every) {
    const Coat coat{&pairs[i].under, kMonday, kMonday + minutes(25)};
    for (const Time time : moments(pairs[i], coat, reckoning)) {
      compare(pairs[i], coat, time, false, 0.9, record, reckoning, seen);
      compare(pairs[i], coat, time, true, 0.9, record, reckoning, seen);
      judged += 2;
    }
  }
  INFO(judged << " judged, " << seen[VerdictKind::kInWindow] << " in window, "
              << seen[VerdictKind::kOutsideLimits] << " outside limits");
  CHECK(seen[VerdictKind::kEarly] > 100);
  CHECK(seen[VerdictKind::kLate] > 3);
  CHECK(seen[VerdictKind::kUnabraded] > 20);
  // Most products do not go on at 12 C and 70 %.
  CHECK((seen[VerdictKind::kInWindow] > judged / 8) == (air != 1));
  CHECK((seen[VerdictKind::kOutsideLimits] > judged / 6) == (air != 0));
}

}  // namespace

// Consistency check: rates and integrals of own_drying.h, written again from docs/formulas.md
TEST_CASE("Pairs are early, late or in their window as a second reckoning has it", "[plan]") {
  judge_pairs(GENERATE(0U, 1U, 2U), 3);
}

TEST_CASE("Every pair is early, late or in its window as a second reckoning has it",
          "[plan][.long]") {
  judge_pairs(GENERATE(0U, 1U, 2U), 1);
}

// Consistency check: rates and integrals of own_drying.h, written again from docs/formulas.md
TEST_CASE("Random coats are judged as a second reckoning has it", "[plan]") {
  std::mt19937 engine(11);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(engine()) / 4294967295.0;
  };
  const auto pairs = known_pairs(false);
  Seen seen;
  for (int number = 0; number < 60; ++number) {
    const double middle = between(9.0, 27.0);
    std::vector<AirEntry> entries;
    for (Time time = kMonday - hours(7); time < kMonday + hours(40);
         time += minutes(20 + engine() % 100)) {
      entries.push_back(forecast(time, middle + between(-4.0, 4.0), between(30.0, 80.0)));
    }
    const AirRecord air(entries,
                        *UsualDay::parse(fmt::format(
                            "5:00 {:.1f}C 60%; 15:00 {:.1f}C 40%", middle - 5, middle + 5)),
                        zone());
    Reckoning reckoning(air, kMonday - hours(6));
    for (int i = 0; i < 5; ++i) {
      INFO("case " << number << "." << i);
      const Pair& pair = pairs[engine() % pairs.size()];
      const Coat coat{&pair.under,
                      kMonday,
                      kMonday + minutes(engine() % 90),
                      i % 2 == 0 ? 1.0 : between(0.4, 2.5)};
      // As many moments within an hour as within a week.
      const auto later = seconds(std::llround(std::exp(between(std::log(200.0), std::log(6e5)))));
      compare(pair,
              coat,
              coat.ended + later,
              engine() % 2 == 0,
              between(0.5, 0.98),
              air,
              reckoning,
              seen);
    }
  }
  CHECK(seen[VerdictKind::kEarly] > 50);
  CHECK(seen[VerdictKind::kInWindow] > 30);
  CHECK(seen[VerdictKind::kOutsideLimits] > 20);
}

// Consistency check
TEST_CASE("A later moment never makes it less likely that the coat beneath was ready", "[plan]") {
  const AirRecord air = swinging_air();
  const auto pairs = known_pairs(false);
  for (std::size_t i = 0; i < pairs.size(); i += 3) {
    const Pair& pair = pairs[i];
    INFO(pair.over.name << " over " << pair.under.name);
    const Coat coat{&pair.under, kMonday, kMonday};
    double before = 0.0;
    for (int hour = 0; hour < 240; hour += 7) {
      const Verdict verdict = judge(pair.over, kMonday + hours(hour), coat, air, true);
      const Finding* early = of_kind(verdict, VerdictKind::kEarly);
      if (early == nullptr) {
        break;
      }
      // A window that closes may become less likely; abraded, each of these has one that does not.
      CHECK(early->chance >= before - 1e-9);
      before = early->chance;
    }
  }
}

// EVIDENCE: recipes, hardwax oil closes 48 h after its label, without a spread
TEST_CASE("A window closes by the label's hours in a cool shop, from the first stroke", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Product& oil = product("hardwax-oil");
  const Coat coat{&oil, kMonday, kMonday + hours(1)};
  CHECK(judge(oil, kMonday + hours(48) - minutes(1), coat, air).kind() == VerdictKind::kInWindow);
  const Verdict late = judge(oil, kMonday + hours(50), coat, air);
  REQUIRE(late.kind() == VerdictKind::kLate);
  CHECK(late.findings.front().by.count() == Approx(7200).margin(2));
  CHECK(late.findings.front().chance == Approx(0.0).margin(1e-3));
  CHECK_THAT(late.findings.front().to_do, Contains("abrade with P400"));
  const Verdict abraded = judge(oil, kMonday + hours(50), coat, air, true);
  CHECK(abraded.kind() == VerdictKind::kInWindow);
  CHECK_FALSE(abraded.findings.front().moment);
}

// EVIDENCE: docs/commands/coat.md: late, the window had closed and the face was not abraded
TEST_CASE("An abraded coat that is not ready is early, not late", "[plan]") {
  // At 23 C and 50 % it closes after 12 h at the earliest; abraded it takes a coat after 24 h.
  const AirRecord air = constant_air(23, 50, zone());
  const Product& varnish = product("oil-modified-varnish");
  const Coat coat{&varnish, kMonday, kMonday};
  const Time soon = kMonday + hours(17);
  const Verdict as_it_is = judge(varnish, soon, coat, air);
  REQUIRE(as_it_is.kind() == VerdictKind::kLate);
  CHECK(as_it_is.findings.front().by == hours(5));
  CHECK_THAT(as_it_is.findings.front().to_do, Contains("abraded and coated 7.0 h from then"));
  const Verdict abraded = judge(varnish, soon, coat, air, true);
  REQUIRE(abraded.kind() == VerdictKind::kEarly);
  CHECK(std::chrono::abs(abraded.findings.front().by - hours(7)) <= seconds(2));
}

// EVIDENCE: recipes, it opens after 4 to 24 h and closes after 12 to 24 h
TEST_CASE("A window with no sure moment is not waited for without abrading", "[plan]") {
  const AirRecord air = constant_air(23, 50, zone());
  const Product& varnish = product("oil-modified-varnish");
  const Coat coat{&varnish, kMonday, kMonday};
  const Verdict early = judge(varnish, kMonday + hours(5), coat, air);
  REQUIRE(early.kind() == VerdictKind::kEarly);
  const Finding& finding = early.findings.front();
  CHECK_THAT(finding.text, Contains("may have closed"));
  CHECK_THAT(finding.to_do, Contains("abrade it with P320 first"));
  REQUIRE(finding.moment);
  const Time then = *finding.moment + minutes(1);
  CHECK(judge(varnish, then, coat, air).kind() == VerdictKind::kLate);
  CHECK(judge(varnish, then, coat, air, true).kind() == VerdictKind::kInWindow);
}

// EVIDENCE: trade_finishing_web, shellac is scuffed under a waterborne coat, or that crawls
TEST_CASE("What holds only abraded is found when it was not", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Product& clear = product("waterborne-clear");
  const Coat coat{&product("dewaxed-shellac"), kMonday, kMonday};
  const Verdict plain = judge(clear, kMonday + hours(20), coat, air);
  REQUIRE(plain.findings.size() == 1);
  CHECK(plain.kind() == VerdictKind::kUnabraded);
  CHECK(plain.findings.front().chance == 0.0);
  CHECK_THAT(plain.findings.front().to_do, Contains("P320"));
  CHECK(judge(clear, kMonday + hours(20), coat, air, true).kind() == VerdictKind::kInWindow);
  const Verdict both = judge(clear, kMonday + minutes(30), coat, air);
  REQUIRE(both.findings.size() == 2);
  CHECK(both.findings[0].kind == VerdictKind::kEarly);
  CHECK(both.findings[1].kind == VerdictKind::kUnabraded);
}

TEST_CASE("What must never go on is refused with its reason and what may go between", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const auto pairs = known_pairs(true);
  REQUIRE(pairs.size() > 20);
  for (const Pair& pair : pairs) {
    INFO(pair.over.name << " over " << pair.under.name);
    const Coat coat{&pair.under, kMonday, kMonday};
    for (const bool abraded : {false, true}) {
      const Verdict verdict = judge(pair.over, kMonday + hours(24 * 60), coat, air, abraded);
      check_none(broken_rules(verdict));
      const Finding& finding = verdict.findings.front();
      CHECK(finding.kind == VerdictKind::kForbidden);
      CHECK(finding.chance == 0.0);
      CHECK_FALSE(finding.moment);
      CHECK_THAT(finding.text, Contains(pair.rule.reason));
      if (!pair.rule.barriers.empty()) {
        CHECK_THAT(finding.to_do, Contains(pair.rule.barriers.front()));
      }
    }
  }
  // EVIDENCE: from memory, the soap in a sanding sealer repels water; dewaxed shellac between
  const Coat sealer{&product("nitrocellulose-sanding-sealer"), kMonday, kMonday};
  const Verdict soap = judge(product("waterborne-clear"), kMonday + hours(24), sealer, air);
  CHECK_THAT(soap.findings.front().text, Contains("soap"));
  CHECK_THAT(soap.findings.front().to_do, Contains("dewaxed-shellac"));
}

TEST_CASE("A pair of which nothing is known is an error, not a verdict", "[plan]") {
  Product stranger = product("oil-modified-varnish");
  stranger.name = "somebody's varnish";
  stranger.layer = "somebody's varnish";
  LaidCoat coat;
  coat.product = &stranger;
  coat.begun = coat.ended = kMonday;
  const auto verdict = judge_coat(product("dewaxed-shellac"),
                                  kMonday + hours(9),
                                  &coat,
                                  false,
                                  0.9,
                                  book(),
                                  constant_air(20, 50, zone()));
  REQUIRE_FALSE(verdict);
  CHECK(verdict.error().code == ErrorCode::kNotFound);
}

// EVIDENCE: recipes, lacquer needs 16 C, at most 60 % and a surface 3 K above the dew point
TEST_CASE("The limit that the air does not keep is said", "[plan]") {
  const Product& lacquer = product("nitrocellulose-lacquer-spray");
  const auto on_wood = [&](const Product& one, double celsius, double percent) {
    const auto verdict = judge_coat(
        one, kMonday, nullptr, false, 0.9, book(), constant_air(celsius, percent, zone()));
    REQUIRE(verdict);
    check_none(broken_rules(*verdict));
    REQUIRE(verdict->findings.size() == 1);
    return verdict->findings.front();
  };
  CHECK(on_wood(lacquer, 16.1, 59).kind == VerdictKind::kInWindow);
  const Finding cold = on_wood(lacquer, 15.5, 50);
  CHECK(cold.kind == VerdictKind::kOutsideLimits);
  CHECK_THAT(cold.text, Contains("15.5 C") && Contains("below the 16.0 C"));
  CHECK_THAT(cold.to_do, Contains("warm"));
  const Finding damp = on_wood(lacquer, 20, 64);
  CHECK(damp.kind == VerdictKind::kOutsideLimits);
  CHECK_THAT(damp.text, Contains("64 %") && Contains("60 %"));
  CHECK_THAT(damp.may_happen, Contains("blush"));
  // EVIDENCE: coating_conditions_guides; at 20 C and 84 % the dew point is at 17.2 C
  const Finding dew = on_wood(product("oil-modified-varnish"), 20, 84);
  CHECK(dew.kind == VerdictKind::kOutsideLimits);
  CHECK_THAT(dew.text, Contains("2.8 C") && Contains("above the dew point"));
  CHECK(on_wood(product("oil-modified-varnish"), 20, 80).kind == VerdictKind::kInWindow);
}

TEST_CASE("Air that turns while a film is wet is found, and not when it is set", "[plan]") {
  const Time noon = at("2027-06-07T12:00:00-04:00");
  // 20 C until 13:00, then 4 K an hour colder: at 14:45 it crosses 13 C.
  const AirRecord air(
      {forecast(noon - hours(3), 20, 45),
       forecast(noon, 20, 45),
       forecast(noon + hours(1), 20, 45),
       forecast(noon + hours(3), 12, 60),
       forecast(noon + hours(5), 12, 60)},
      UsualDay::constant(Temperature::from_celsius(12), RelativeHumidity::from_percent(60)),
      zone());
  const auto on_wood = [&](const std::string& name, double confidence) {
    return judge_coat(product(name), noon, nullptr, false, confidence, book(), air).value();
  };
  // EVIDENCE: recipes, varnish is dust-free after 1 to 3 h and needs 13 C until then
  const Verdict varnish = on_wood("oil-modified-varnish", 0.9);
  REQUIRE(varnish.kind() == VerdictKind::kOutsideLimits);
  CHECK_THAT(varnish.findings.front().text,
             Contains("2.8 h after it goes on") && Contains("'dust-free'") && Contains("13.0 C"));
  // Of a coat that dries as the middle one does, 1.7 h at 23 C, the film has set by then.
  CHECK(on_wood("oil-modified-varnish", 0.5).kind() == VerdictKind::kInWindow);
  // EVIDENCE: recipes, lacquer is dust-free after 10 minutes
  CHECK(on_wood("nitrocellulose-lacquer-spray", 0.9).kind() == VerdictKind::kInWindow);
}

TEST_CASE("A coat both early and outside its limits says both, worst first", "[plan]") {
  const AirRecord air = constant_air(14, 50, zone());
  const Product& lacquer = product("nitrocellulose-lacquer-spray");
  const Coat coat{&product("oil-wiping-stain"), kMonday, kMonday};
  const Verdict both = judge(lacquer, kMonday + minutes(90), coat, air);
  REQUIRE(both.findings.size() == 2);
  CHECK(both.findings[0].kind == VerdictKind::kEarly);
  CHECK(both.findings[1].kind == VerdictKind::kOutsideLimits);
  CHECK(both.findings[1].chance < 0.01);
  // Days later the stain is dry; the air alone is at fault, and nothing says "in window".
  const Verdict cold = judge(lacquer, kMonday + hours(24 * 7), coat, air);
  REQUIRE(cold.findings.size() == 1);
  CHECK(cold.kind() == VerdictKind::kOutsideLimits);
}

TEST_CASE("Below its minimum a coat is never ready, and no moment is named", "[plan]") {
  const AirRecord air = constant_air(8, 50, zone());
  const Coat coat{&product("oil-wiping-stain"), kMonday, kMonday};  // needs 10 C
  const Verdict verdict = judge(product("dewaxed-shellac"), kMonday + hours(24 * 9), coat, air);
  REQUIRE(verdict.kind() == VerdictKind::kEarly);
  const Finding& finding = verdict.findings.front();
  CHECK_FALSE(finding.moment);
  CHECK(finding.by == seconds(0));
  CHECK(finding.chance < 1e-9);
  CHECK_THAT(finding.text, Contains("not ready within four weeks") && Contains("had 0.0 h"));
}

TEST_CASE("Bare wood takes a first coat at any time", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  for (const std::string& name : book().product_names()) {
    INFO(name);
    const auto verdict =
        judge_coat(product(name), kMonday, nullptr, false, 0.9, book(), air).value();
    REQUIRE(verdict.findings.size() == 1);
    CHECK(verdict.kind() == VerdictKind::kInWindow);
    CHECK(verdict.findings.front().chance == 1.0);
    CHECK(verdict.air.temperature.celsius() == Approx(20.0));
  }
}

// EVIDENCE: recipes, in the reference air: the high end of recoat times 2 to the exponent
TEST_CASE("A film twice as thick is waited for longer by its exponent", "[plan]") {
  const AirRecord air = constant_air(23, 50, zone());
  const auto opens = [&](const std::string& name, double film_ratio) {
    const Coat coat{&product(name), kMonday, kMonday, film_ratio};
    const Verdict verdict = judge(product(name), kMonday + minutes(1), coat, air);
    REQUIRE(verdict.kind() == VerdictKind::kEarly);
    return Hours::from_seconds(*verdict.findings.front().moment - kMonday).hours();
  };
  CHECK(opens("nitrocellulose-lacquer-spray", 1.0) == Approx(2.0).margin(0.002));
  CHECK(opens("nitrocellulose-lacquer-spray", 2.0) == Approx(8.0).margin(0.002));
  CHECK(opens("water-stain", 1.0) == Approx(3.0).margin(0.002));
  CHECK(opens("water-stain", 2.0) == Approx(6.0).margin(0.002));
  CHECK(opens("oil-modified-varnish", 2.0) == Approx(24.0).margin(0.002));
  // Water leaves in 0.75 h at most, the rest of the 8 h is closing, which knows no thickness.
  CHECK(opens("waterborne-clear", 1.0) == Approx(8.0).margin(0.002));
  CHECK(opens("waterborne-clear", 2.0) == Approx(8.75).margin(0.002));
}

TEST_CASE("Verdicts agree with what makers know", "[plan]") {
  const AirRecord air = constant_air(20, 50, zone());
  const Product& lacquer = product("nitrocellulose-lacquer-spray");
  const Time friday = at("2027-06-11T17:00:00-04:00");
  const Coat stain{&product("oil-wiping-stain"), friday, friday};
  // EVIDENCE: common-practice, no source: a wiped oil stain of Friday takes lacquer on Monday
  CHECK(judge(lacquer, at("2027-06-14T08:00:00-04:00"), stain, air).kind() ==
        VerdictKind::kInWindow);
  // EVIDENCE: common-practice, no source: lacquer over wet oil stain lifts and bleeds
  const Verdict wet = judge(lacquer, friday + minutes(90), stain, air);
  CHECK(wet.kind() == VerdictKind::kEarly);
  CHECK(wet.findings.front().chance < 0.01);
  CHECK_THAT(wet.findings.front().may_happen, Contains("lift"));
  // EVIDENCE: common-practice, no source: shellac and lacquer redissolve, however old
  for (const char* name : {"dewaxed-shellac", "nitrocellulose-lacquer-spray"}) {
    INFO(name);
    const Coat old{&product(name), kMonday - hours(24 * 365), kMonday - hours(24 * 365)};
    CHECK(judge(product(name), kMonday, old, air).kind() == VerdictKind::kInWindow);
  }
  // EVIDENCE: common-practice, no source: varnish of last month is scuffed before the next coat
  const Coat varnish{&product("oil-modified-varnish"), kMonday, kMonday};
  CHECK(judge(*varnish.product, kMonday + hours(24 * 30), varnish, air).kind() ==
        VerdictKind::kLate);
}

// EVIDENCE: recipes, in the reference air an hour is an hour: 24 h needed at 90 % confidence
TEST_CASE("What a coat beneath needs and has is said in hours", "[plan]") {
  const AirRecord air = constant_air(23, 50, zone());
  const Coat stain{&product("oil-wiping-stain"), kMonday, kMonday};
  const Product& shellac = product("dewaxed-shellac");
  const Verdict early = judge(shellac, kMonday + hours(6), stain, air);
  CHECK_THAT(early.findings.front().text,
             Contains("needs 24.0 h") && Contains("had 6.0 h") && Contains("90 %") &&
                 Contains("oxidation") && Contains("under 1 %"));
  // The middle of 12 to 24 h, by the geometric mean, is ready in one shop of two.
  const Verdict middle = judge(shellac, kMonday + minutes(1018), stain, air);
  CHECK(middle.findings.front().chance == Approx(0.5).margin(0.005));
  CHECK_THAT(middle.findings.front().text, Contains("50 %"));
  // EVIDENCE: recipes, a waterborne coat opens after 2 to 8 h and closes after 12 to 24 h
  const Coat clear{&product("waterborne-clear"), kMonday, kMonday};
  const Verdict open = judge(*clear.product, kMonday + hours(10), clear, air);
  REQUIRE(open.kind() == VerdictKind::kInWindow);
  CHECK(*open.findings.front().moment - kMonday <= hours(12));
  CHECK(*open.findings.front().moment - kMonday >= hours(12) - seconds(2));
  const Verdict closed = judge(*clear.product, kMonday + minutes(1018), clear, air);
  REQUIRE(closed.kind() == VerdictKind::kLate);
  CHECK_THAT(closed.findings.front().text, Contains("still open is 50 %"));
}

TEST_CASE("A moment before the coat beneath is early by all of its wait", "[plan]") {
  const AirRecord air = constant_air(23, 50, zone());
  const Coat coat{&product("nitrocellulose-lacquer-spray"), kMonday, kMonday + minutes(20)};
  const Verdict verdict = judge(*coat.product, kMonday - hours(5), coat, air);
  REQUIRE(verdict.kind() == VerdictKind::kEarly);
  CHECK(Hours::from_seconds(verdict.findings.front().by).hours() ==
        Approx(5.0 + 20.0 / 60.0 + 2.0).margin(0.002));
  CHECK(verdict.findings.front().chance < 1e-9);
}
