#include "scheduling/search_tables.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

/// Counts how often it is asked.
class CountingLag : public LagFunction {
 public:
  [[nodiscard]] Tick at(Tick start) const override {
    ++asked;
    return start + 7 + start / 3;
  }
  mutable int asked = 0;
};

Project two_spans() {
  Project project;
  project.grain = 5;
  project.horizon = 100;
  project.start_sets.push_back({{{0, 20}, {35, 35}, {60, 90}}});
  project.activities = {{"one", 5, {}, 0}, {"other", 5, {}, 0}};
  return project;
}

}  // namespace

TEST_CASE("A part of a shared numbering is the domain of its limits", "[scheduling]") {
  const Project project = two_spans();
  const SearchTables tables(project);
  for (Tick earliest = -5; earliest <= 100; ++earliest) {
    for (Tick latest = earliest - 1; latest <= 100; latest += 4) {
      const StartDomain part(tables.starts_of(0), earliest, latest);
      const StartDomain alone(project.start_sets[0], project.grain, earliest, latest);
      CAPTURE(earliest, latest);
      REQUIRE(part.size() == alone.size());
      for (int i = 0; i < part.size(); ++i) {
        CHECK(part.tick_of(i) == alone.tick_of(i));
      }
      for (Tick tick = -2; tick <= 102; tick += 3) {
        CHECK(part.index_up(tick) == alone.index_up(tick));
        CHECK(part.index_down(tick) == alone.index_down(tick));
      }
    }
  }
}

TEST_CASE("A moment of a lag is worked out once", "[scheduling]") {
  const Project project = two_spans();
  SearchTables tables(project);
  const auto function = std::make_shared<CountingLag>();
  const Lag lag{0, function};
  CHECK(tables.memo(Lag{12}, 0) == nullptr);
  LagMemo* memo = tables.memo(lag, 0);
  REQUIRE(memo != nullptr);
  CHECK(tables.memo(lag, 1) == memo);
  const int count = tables.starts_of(0)->size();
  for (int round = 0; round < 2; ++round) {
    for (int number = 0; number < count; ++number) {
      const Tick start = tables.starts_of(0)->tick_of(number);
      CHECK(memo->at(number) == start + 7 + start / 3);
    }
  }
  CHECK(function->asked == count);
}
