// The drying clock over a year of readings a minute apart: what building costs, what a question
// costs, and both beside a plain walk of trapezoids. Prints figures; checks nothing.
#include <chrono>
#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include "drying/drying_clock.h"

namespace {

using namespace coatwright;
using Stopwatch = std::chrono::steady_clock;

constexpr std::chrono::minutes kSpacing{1};
constexpr int kReadings = 365 * 24 * 60;
const Time kStart = Time(std::chrono::hours(24 * 20000));

double seconds_since(Stopwatch::time_point begin) {
  return std::chrono::duration<double>(Stopwatch::now() - begin).count();
}

std::vector<AirEntry> year_of_readings() {
  std::mt19937 random(1);
  std::normal_distribution<double> noise(0.0, 0.05);
  std::vector<AirEntry> entries;
  entries.reserve(kReadings);
  for (int i = 0; i < kReadings; ++i) {
    const double day = i / 1440.0;
    const double celsius =
        18.0 + 4.0 * std::sin(6.2832 * day) + 3.0 * std::sin(day / 58.0) + noise(random);
    const double percent = 55.0 + 12.0 * std::cos(6.2832 * day) + noise(random);
    entries.push_back({kStart + i * kSpacing,
                       Temperature::from_celsius(celsius),
                       RelativeHumidity::from_percent(percent),
                       AirOrigin::kLogger});
  }
  return entries;
}

/// What a program would do without a clock: trapezoids from entry to entry.
double walk(const AirRecord& air, const RateLaw& law, Time from, Time to) {
  const auto knots = air.knots(from, to);
  double hours = 0.0;
  double before = 0.0;
  for (std::size_t i = 0; i < knots.size(); ++i) {
    const double rate =
        law.rate(knots[i].temperature,
                 relative_humidity_from_humidity_ratio(knots[i].temperature, knots[i].ratio));
    if (i > 0) {
      hours += (before + rate) / 2.0 *
               static_cast<double>((knots[i].at - knots[i - 1].at).count()) / 3600.0;
    }
    before = rate;
  }
  return hours;
}

void measure(const AirRecord& air, const RateLaw& law) {
  constexpr int kQuestions = 1'000'000;
  constexpr int kWalks = 200;
  const Time end = kStart + kReadings * kSpacing;
  DryingClock clock(air, law, Temperature::from_celsius(10.0), kStart);
  auto begin = Stopwatch::now();
  const double year = clock.earned(kStart, end).hours();
  const double building = seconds_since(begin);

  std::mt19937 random(2);
  std::uniform_int_distribution<int> minute(0, kReadings - 30 * 1440);
  std::vector<Time> moments;
  for (int i = 0; i < kQuestions; ++i) {
    moments.push_back(kStart + minute(random) * kSpacing);
  }
  double sum = 0.0;
  begin = Stopwatch::now();
  for (const Time from : moments) {
    const auto at = clock.reached(from, Hours::from_hours(24.0), end);
    sum += at ? static_cast<double>((*at - from).count()) : 0.0;
  }
  const double asking = seconds_since(begin) / kQuestions;

  begin = Stopwatch::now();
  for (int i = 0; i < kWalks; ++i) {
    sum += walk(air,
                law,
                moments[static_cast<std::size_t>(i)],
                moments[static_cast<std::size_t>(i)] + std::chrono::hours(24));
  }
  const double walking = seconds_since(begin) / kWalks;
  std::printf(
      "%-26s built in %6.1f ms; %5.2f million questions a second; a walk over one day "
      "takes %.0f times a question (%.0f h, %.0f)\n",
      law.description().c_str(),
      building * 1e3,
      1e-6 / asking,
      walking / asking,
      year,
      sum);
}

}  // namespace

int main() {
  const auto entries = year_of_readings();
  auto begin = Stopwatch::now();
  const AirRecord air(
      entries,
      UsualDay::constant(Temperature::from_celsius(18.0), RelativeHumidity::from_percent(50.0)),
      *Zone::find("UTC"));
  std::printf("record of %d readings built in %.1f ms\n", kReadings, seconds_since(begin) * 1e3);
  measure(air, rate_law_of(Mechanism::kOxidation));
  measure(air, rate_law_of(Mechanism::kEvaporation, antoine_of("n-butyl acetate")));
  measure(air, rate_law_of(Mechanism::kWaterLoss));
  measure(air, rate_law_of(Mechanism::kMoistureCure));
}
