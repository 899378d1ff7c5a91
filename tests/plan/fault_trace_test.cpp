#include "plan/fault_trace.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "plan/plan_requests.h"

using namespace coatwright;
using namespace asked;
using Catch::Matchers::Contains;
using std::chrono::hours;
using std::chrono::minutes;

namespace {

const Time kMonday = at("2027-06-07T08:00:00Z");

const Product& product(const std::string& name) {
  return **book().product(name);
}

const Defect& defect(const std::string& name) {
  return **book().defect(name);
}

const Species& wood(const std::string& name) {
  return **book().species(name);
}

AirEntry reading(Time time, double celsius, double percent) {
  return {time,
          Temperature::from_celsius(celsius),
          RelativeHumidity::from_percent(percent),
          AirOrigin::kReading};
}

/// Measured air that stays as it is for three days from Monday on.
AirRecord measured(double celsius, double percent) {
  std::vector<AirEntry> entries;
  for (int hour = -3; hour <= 72; ++hour) {
    entries.push_back(reading(kMonday + hours(hour), celsius, percent));
  }
  return {entries, *UsualDay::parse("7:00 20C 40%"), zone("UTC")};
}

const AirRecord& good_air() {
  static const AirRecord air = measured(20, 40);
  return air;
}

Finding finding(VerdictKind kind, double chance, std::chrono::seconds by = {}) {
  Finding one;
  one.kind = kind;
  one.chance = chance;
  one.by = by;
  one.text = "it needs 24 h";
  one.to_do = "wait";
  one.source = "label";
  return one;
}

/// A piece's log in the making.
class Log {
 public:
  TracedWork& coat(const std::string& name, std::chrono::minutes after = minutes(0)) {
    TracedWork& work = step(StepKind::kApply, after);
    work.product = &product(name);
    return work;
  }
  TracedWork& step(StepKind kind, std::chrono::minutes after) {
    TracedWork work;
    work.entry = static_cast<std::int64_t>(case_.works.size()) + 1;
    work.kind = kind;
    work.at = kMonday + after;
    case_.works.push_back(work);
    return case_.works.back();
  }
  FaultCase& piece() { return case_; }

  std::vector<Suspect> why(const std::string& name, const AirRecord& air = good_air()) {
    case_.now = case_.now == Time{} ? kMonday + hours(24 * 40) : case_.now;
    return trace_fault(defect(name), case_, air);
  }

 private:
  FaultCase case_;
};

std::vector<std::string> signs_of(const std::vector<Suspect>& suspects) {
  std::vector<std::string> signs;
  for (const Suspect& one : suspects) {
    signs.emplace_back(name_of(one.trigger->sign));
  }
  return signs;
}

using Signs = std::vector<std::string>;

}  // namespace

TEST_CASE("A wrinkled coat is looked for in the readiness of the one beneath", "[plan]") {
  // EVIDENCE: trade_finishing_web row "wrinkling / lifting": a part-cured lower coat, recoated
  // inside its critical period
  for (const std::string name : {"wrinkling", "lifting"}) {
    Log log;
    log.coat("oil-modified-varnish");
    log.coat("oil-modified-varnish", hours(4)).findings = {
        finding(VerdictKind::kEarly, 0.04, minutes(200))};
    log.coat("oil-modified-varnish", hours(48)).findings = {finding(VerdictKind::kInWindow, 0.97)};
    const auto suspects = log.why(name);
    REQUIRE(signs_of(suspects) == Signs{"coat-early"});
    CHECK(suspects.front().coat->entry == 2);
    CHECK(suspects.front().strong);
    CHECK(suspects.front().off == minutes(200));
    CHECK(suspects.front().chance == 0.04);
    CHECK_THAT(suspects.front().found, Contains("early by 3 h 20 min: it needs 24 h"));
    CHECK(suspects.front().to_do == "wait");
  }
}

TEST_CASE("A finding with an even chance of no fault speaks weakly and stands last", "[plan]") {
  Log log;  // consistency check: the order is judgement
  log.coat("oil-modified-varnish");
  log.coat("oil-modified-varnish", hours(12)).findings = {finding(VerdictKind::kEarly, 0.5)};
  log.coat("oil-modified-varnish", hours(14)).findings = {finding(VerdictKind::kForbidden, 0.0)};
  const auto suspects = log.why("lifting");
  REQUIRE(signs_of(suspects) == Signs{"forbidden-pair", "coat-early"});
  CHECK(suspects[0].strong);
  CHECK_FALSE(suspects[1].strong);
}

TEST_CASE("Of equal signs the one further off is first, then the later coat", "[plan]") {
  Log log;  // consistency check: the order is judgement
  for (const double chance : {0.3, 0.1, 0.3}) {
    const auto after = hours(10 * static_cast<int>(log.piece().works.size()));
    log.coat("oil-modified-varnish", after).findings = {finding(VerdictKind::kEarly, chance)};
  }
  const auto suspects = log.why("lifting");
  REQUIRE(suspects.size() == 3);
  CHECK(suspects[0].coat->entry == 2);
  CHECK(suspects[1].coat->entry == 3);
  CHECK(suspects[2].coat->entry == 1);
}

TEST_CASE("A coat that peels came late or was not abraded", "[plan]") {
  // EVIDENCE: trade_finishing_web row "poor adhesion between coats": cured coat not scuffed,
  // beyond the window
  Log log;
  log.coat("conversion-varnish");
  log.coat("conversion-varnish", hours(60)).findings = {finding(VerdictKind::kLate, 0.1, hours(30)),
                                                        finding(VerdictKind::kUnabraded, 0.0)};
  const auto suspects = log.why("peeling");
  CHECK(signs_of(suspects) == Signs{"coat-late", "not-abraded"});
}

TEST_CASE("Lacquer blushes in air near its dew point while the film is open", "[plan]") {
  // EVIDENCE: trade_finishing_web row "blushing": humidity above 65 %, or a dew point within 11 C
  // EVIDENCE: uk_weather_station_table 20 C at 60 % has its dew point at 12 C: 8 K apart
  Log log;
  log.coat("nitrocellulose-lacquer-spray");
  const auto mild = log.why("blush", measured(20, 60));
  REQUIRE(signs_of(mild) == Signs{"near-dew-point"});
  CHECK_FALSE(mild.front().strong);
  CHECK_THAT(mild.front().found, Contains("60 % and 8.0 C (14 F) above its dew point"));

  const auto damp = log.why("blush", measured(20, 88));
  REQUIRE(signs_of(damp) == Signs{"near-dew-point", "humid-air"});
  CHECK(damp.front().strong);
  CHECK_THAT(damp[1].found, Contains("88 %") && Contains("takes up to 60 %"));

  CHECK(log.why("blush", measured(30, 20)).empty());
}

TEST_CASE("A defect is looked for only in products that it befalls", "[plan]") {
  // EVIDENCE: trade_finishing_web row "blushing" names lacquer and shellac
  Log log;
  log.coat("oil-modified-varnish");
  log.coat("waterborne-clear", hours(30));
  CHECK(log.why("blush", measured(20, 90)).empty());
  log.coat("dewaxed-shellac", hours(50));
  CHECK_FALSE(log.why("blush", measured(20, 90)).empty());
}

TEST_CASE("Air that turns damp after the coat counts while the film is open", "[plan]") {
  // EVIDENCE: trade_finishing_web row "blushing"; that it counts until dust-free is the recipe's
  const auto turning = [](std::chrono::minutes after) {
    return AirRecord({reading(kMonday, 22, 35),
                      reading(kMonday + after, 22, 35),
                      reading(kMonday + after + minutes(1), 22, 90),
                      reading(kMonday + after + hours(2), 22, 90)},
                     *UsualDay::parse("7:00 20C 40%"),
                     zone("UTC"));
  };
  Log log;
  log.coat("nitrocellulose-lacquer-spray");
  const auto soon = log.why("blush", turning(minutes(3)));
  REQUIRE_FALSE(soon.empty());
  CHECK(soon.front().strong);
  CHECK_THAT(soon.front().found, Contains("after it went on, its film still open"));
  for (const Suspect& one : log.why("blush", turning(hours(3)))) {
    CHECK_FALSE(one.strong);
  }
}

TEST_CASE("Air that is still to come is no suspect, and the usual day speaks weakly", "[plan]") {
  Log log;  // consistency check
  log.coat("nitrocellulose-lacquer-spray");
  log.piece().now = kMonday;
  const AirRecord later({reading(kMonday, 30, 20), reading(kMonday + minutes(10), 20, 90)},
                        *UsualDay::parse("7:00 30C 20%"),
                        zone("UTC"));
  CHECK(log.why("blush", later).empty());
  const auto usual = log.why("blush", usual_air("7:00 20C 90%", zone("UTC")));
  REQUIRE_FALSE(usual.empty());
  CHECK_FALSE(usual.front().strong);
  CHECK_THAT(usual.front().found, Contains("usual day"));
}

TEST_CASE("The air that was kept with a coat counts at its moment", "[plan]") {
  Log log;  // consistency check
  TracedWork& coat = log.coat("nitrocellulose-lacquer-spray");
  const auto damp = reading(kMonday, 20, 92);
  coat.air = AirState{damp.temperature,
                      damp.humidity,
                      dew_point(damp.temperature, damp.humidity),
                      AirOrigin::kReading};
  const auto suspects = log.why("blush", measured(30, 20));
  REQUIRE_FALSE(suspects.empty());
  CHECK_THAT(suspects.front().found, Contains("92 %") && Contains("when it went on"));
  coat.air->origin = AirOrigin::kForecast;  // by now it was measured otherwise
  CHECK(log.why("blush", measured(30, 20)).empty());
}

TEST_CASE("A tacky varnish is looked for in the cold, in oily wood and in what lay on it",
          "[plan]") {
  // EVIDENCE: trade_finishing_web row "tacky oil or varnish": below 55 F (12.8 C) it stays tacky;
  // extractives of teak and rosewood; early recoat
  Log log;
  log.coat("oil-modified-varnish");
  log.piece().species = &wood("red-oak");
  CHECK(log.why("tacky").empty());
  const auto cold = log.why("tacky", measured(9, 40));
  REQUIRE(signs_of(cold) == Signs{"cold-air"});
  CHECK_THAT(cold.front().found, Contains("9.0 C (48 F)") && Contains("needs 13.0 C"));

  log.piece().species = &wood("teak");
  const auto oily = log.why("tacky");
  REQUIRE(signs_of(oily) == Signs{"oily-wood"});
  CHECK(oily.front().coat->entry == 1);

  log.coat("waterborne-clear", hours(20)).findings = {finding(VerdictKind::kEarly, 0.2)};
  CHECK(signs_of(log.why("tacky")) == Signs{"coat-early", "oily-wood"});
}

TEST_CASE("What the wood is tells only on the coat that lay on it bare", "[plan]") {
  // EVIDENCE: trade_finishing_web rows "tacky oil or varnish", "tannin / extractive bleed" and
  // "blotching": shellac seals the wood off, a wash coat evens it
  Log sealed;
  sealed.piece().species = &wood("teak");
  sealed.coat("dewaxed-shellac");
  sealed.coat("oil-modified-varnish", hours(20));
  CHECK(sealed.why("tacky").empty());

  Log water;
  water.coat("waterborne-clear");
  water.piece().species = &wood("red-oak");
  CHECK(signs_of(water.why("tannin-bleed")) == Signs{"tannin-wood"});
  CHECK(signs_of(water.why("black-spots")) == Signs{"tannin-wood"});
  water.piece().species = &wood("hard-maple");
  CHECK(water.why("tannin-bleed").empty());
  water.piece().species = &wood("red-oak");
  water.piece().came_in_finished = true;
  CHECK(water.why("tannin-bleed").empty());
}

TEST_CASE("Blotches come from the wood, or from stain that was wiped late", "[plan]") {
  // EVIDENCE: trade_finishing_web row "blotching": pine, cherry, maple; late wipe-off
  Log log;
  log.piece().species = &wood("black-cherry");
  log.coat("oil-wiping-stain");
  const auto unwiped = log.why("blotching");
  REQUIRE(signs_of(unwiped) == Signs{"blotching-wood", "wiped-late"});
  CHECK_FALSE(unwiped[1].strong);  // that none is logged is no proof of none

  const auto closes = product("oil-wiping-stain").wipe_off->closes.minutes();
  const auto label = minutes(static_cast<int>(closes));
  log.step(StepKind::kWipe, label + minutes(40));
  const auto late = log.why("blotching", measured(23, 50));
  REQUIRE(signs_of(late) == Signs{"wiped-late", "blotching-wood"});
  CHECK(late.front().off >= minutes(39));
  CHECK(late.front().off <= minutes(41));
  CHECK_THAT(late.front().found, Contains("wiped late by 40 min: entry 2"));

  Log in_time;
  in_time.coat("oil-wiping-stain");
  in_time.step(StepKind::kWipe, label - minutes(1));
  CHECK(in_time.why("blotching", measured(23, 50)).empty());

  Log washed;
  washed.piece().species = &wood("black-cherry");
  washed.coat("shellac-wash-coat");
  washed.coat("oil-wiping-stain", hours(3));
  washed.step(StepKind::kWipe, hours(3) + label - minutes(1));
  CHECK(washed.why("blotching", measured(23, 50)).empty());
}

TEST_CASE("Runs come from much more of it than a coat takes", "[plan]") {
  // EVIDENCE: trade_finishing_web row "runs and sags": coat too heavy. Area over litres against
  // the recipe's own coverage is a consistency check
  Log log;
  TracedWork& coat = log.coat("oil-modified-varnish");
  const double least = coat.product->film.spread_low_m2_per_l;
  coat.face_area = Area::from_square_metres(1.0);
  coat.faces = {0, 1};
  coat.amount = Volume::from_litres(1.9 / least);
  CHECK(log.why("runs").empty());
  coat.amount = Volume::from_litres(2.4 / least);
  auto suspects = log.why("runs");
  REQUIRE(signs_of(suspects) == Signs{"thick-film"});
  CHECK_FALSE(suspects.front().strong);
  CHECK_THAT(suspects.front().found, Contains("1.2 times the thickest usual one"));
  coat.amount = Volume::from_litres(4.0 / least);
  suspects = log.why("runs");
  REQUIRE(signs_of(suspects) == Signs{"thick-film"});
  CHECK(suspects.front().strong);
}

TEST_CASE("Cold checks come from more film in all than lacquer bears", "[plan]") {
  // EVIDENCE: trade_finishing_web row "cold check": total dry film over 100 to 125 um
  Log few;
  Log many;
  for (int i = 0; i < 12; ++i) {
    if (i < 2) {
      few.coat("nitrocellulose-lacquer-spray", hours(4 * i));
    }
    many.coat("nitrocellulose-lacquer-spray", hours(4 * i));
  }
  CHECK(few.why("cold-check").empty());
  const auto suspects = many.why("cold-check");
  REQUIRE(signs_of(suspects) == Signs{"thick-film"});
  CHECK(suspects.front().strong);
  CHECK(suspects.front().coat->entry == 12);
  CHECK_THAT(suspects.front().found, Contains("with it 12 coats lie there"));
}

TEST_CASE("A film that was turned over soft takes prints", "[plan]") {
  // EVIDENCE: trade_finishing_web row "printing": load on film before through-cure
  const auto turned_after = [](std::chrono::minutes after) {
    Log log;
    log.coat("oil-modified-varnish");
    log.step(StepKind::kFlip, after);
    return log.why("print");
  };
  const auto soon = turned_after(minutes(90));
  REQUIRE(signs_of(soon) == Signs{"early-use"});
  CHECK(soon.front().strong);
  CHECK(*soon.front().chance < 0.1);
  CHECK_THAT(soon.front().found, Contains("entry 2, flip, was 1 h 30 min after it"));
  CHECK(turned_after(hours(24 * 30)).empty());
}

TEST_CASE("Water raises grain that was not raised before", "[plan]") {
  // EVIDENCE: trade_finishing_web row "raised grain": any water on sanded wood; pre-raise it
  Log log;
  log.step(StepKind::kSand, minutes(0)).grit = "P180";
  log.coat("waterborne-clear", hours(1));
  log.coat("waterborne-clear", hours(5));
  const auto suspects = log.why("raised-grain");
  REQUIRE(signs_of(suspects) == Signs{"grain-not-raised"});
  CHECK(suspects.front().coat->entry == 2);
  CHECK(suspects.front().strong);

  Log raised;
  raised.step(StepKind::kSand, minutes(0));
  raised.step(StepKind::kRaiseGrain, minutes(30));
  raised.coat("waterborne-clear", hours(12));
  CHECK(raised.why("raised-grain").empty());
}

TEST_CASE("A film comes off wood that was sanded too fine", "[plan]") {
  // EVIDENCE: trade_finishing_web row "poor adhesion to bare wood": finer than P220, closed grain
  const auto sanded_to = [](const std::string& grit) {
    Log log;
    log.piece().species = &wood("hard-maple");
    log.piece().sanding = *book().sanding();
    log.step(StepKind::kSand, minutes(0)).grit = grit;
    log.coat("conversion-varnish", hours(1));
    return log.why("flaking");
  };
  CHECK(sanded_to("P150").empty());
  const auto fine = sanded_to("P320");
  REQUIRE(signs_of(fine) == Signs{"sanded-too-fine"});
  CHECK_THAT(fine.front().found, Contains("entry 1 sanded to P320"));
}

TEST_CASE("Cracks along the grain come from wood that was finished wet", "[plan]") {
  // EVIDENCE: trade_finishing_web row "cracks along the grain": acclimatise to 6 to 8 %
  const auto measured_at = [](double percent, std::chrono::hours after) {
    Log log;
    log.coat("oil-modified-varnish");
    log.piece().readings = {{7, kMonday + after, "", percent}};
    return log.why("cracking");
  };
  CHECK(measured_at(8, hours(-1)).empty());
  CHECK(measured_at(14, hours(1)).empty());
  const auto wet = measured_at(14, hours(-1));
  REQUIRE(signs_of(wet) == Signs{"wet-wood"});
  CHECK_THAT(wet.front().found, Contains("entry 7 measured the wood at 14.0 %"));
}

TEST_CASE("Wood that warms brings oil and air out of its pores", "[plan]") {
  // EVIDENCE: trade_finishing_web row "bleed-back": excess oil oozes out as it warms
  const AirRecord warming({reading(kMonday - hours(1), 16, 50),
                           reading(kMonday, 16, 50),
                           reading(kMonday + hours(2), 24, 35)},
                          *UsualDay::parse("7:00 20C 40%"),
                          zone("UTC"));
  Log film;
  film.coat("conversion-varnish");
  CHECK(signs_of(film.why("bubbles", warming)) == Signs{"warming-wood"});
  CHECK(film.why("bubbles").empty());
  Log oil;
  oil.coat("tung-oil");
  const auto signs = signs_of(oil.why("bleed-back", warming));
  CHECK(std::find(signs.begin(), signs.end(), "warming-wood") != signs.end());
}

TEST_CASE("Coats of another part or face lie beneath none", "[plan]") {
  Log log;  // consistency check
  log.piece().species = &wood("red-oak");
  log.coat("dewaxed-shellac").part = "top";
  log.coat("waterborne-clear", hours(2)).part = "base";
  CHECK(signs_of(log.why("tannin-bleed")) == Signs{"tannin-wood"});
  log.piece().works.back().part = "";
  CHECK(log.why("tannin-bleed").empty());
  log.piece().works.back().faces = {1};
  CHECK(signs_of(log.why("tannin-bleed")) == Signs{"tannin-wood"});
}

TEST_CASE("A log that shows nothing names no suspect", "[plan]") {
  Log empty;  // consistency check
  CHECK(empty.why("blush").empty());
  Log plain;
  plain.coat("conversion-varnish");
  for (const std::string name : {"fisheye", "bloom", "witness-lines", "yellowing"}) {
    CHECK(plain.why(name, measured(20, 95)).empty());
  }
}
