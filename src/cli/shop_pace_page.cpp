#include "cli/shop_pace_page.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/common.h"
#include "cli/product_text.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

Json range_json(const DurationRange& range) {
  return {{"low_hours", rounded(range.low().hours(), 4)},
          {"high_hours", rounded(range.high().hours(), 4)}};
}

std::string coats_words(int coats) {
  return fmt::format("{} coat{}", coats, coats == 1 ? "" : "s");
}

}  // namespace

std::vector<PacedStage> paced_stages(const Product& labelled, const LearnedPaces& learned) {
  const Product own = paced(labelled, learned);
  std::vector<PacedStage> stages;
  for (const auto& [stage, drying] : labelled.stages) {
    const ShopPace* pace = learned.paces.of(pacing_mechanism(drying.timing), labelled.name);
    const DurationRange range = drying.timing.whole();
    if (pace == nullptr || range.low() == range.high()) {
      continue;
    }
    stages.push_back({stage,
                      range,
                      own.stage(stage)->timing.whole(),
                      shop_factor(range, pace->shop_middle),
                      shop_factor(range, pace->shop_low),
                      shop_factor(range, pace->shop_high),
                      pace->coats});
  }
  return stages;
}

std::string shop_pace_as_text(const std::vector<PacedStage>& stages) {
  if (stages.empty()) {
    return "";
  }
  TextTable table({{"stage"},
                   {"as labelled"},
                   {"this shop, times as long"},
                   {"90 % sure"},
                   {"tests of"},
                   {"its range here"}});
  for (const PacedStage& stage : stages) {
    table.add({std::string(name_of(stage.stage)),
               show_opening_range(stage.labelled),
               fmt::format("{:.2f}", stage.factor),
               fmt::format("{:.2f} to {:.2f}", stage.factor_low, stage.factor_high),
               coats_words(stage.coats),
               show_opening_range(stage.own)});
  }
  return "\nThis shop's own pace, by its touch tests, at the reference\n" + table.text(2) +
         wrap(
             "A recoat opens no sooner than the label's shortest time unless `shop set "
             "--learned-recoat as-tested`; no window closes later than labelled; light use and "
             "full cure come no sooner. Plans set all of this aside with --as-labelled.",
             2,
             2);
}

Json shop_pace_as_json(const std::vector<PacedStage>& stages) {
  Json list = Json::array();
  for (const PacedStage& stage : stages) {
    list.push_back({{"stage", name_of(stage.stage)},
                    {"labelled", range_json(stage.labelled)},
                    {"own", range_json(stage.own)},
                    {"factor", rounded(stage.factor, 3)},
                    {"factor_low", rounded(stage.factor_low, 3)},
                    {"factor_high", rounded(stage.factor_high, 3)},
                    {"coats", stage.coats}});
  }
  return list;
}

std::string factor_words(const PacedStage& stage) {
  return fmt::format(
      "{} {:.2f} times as long as labelled (90 % sure: {:.2f} to {:.2f}), by touch "
      "tests of {}",
      name_of(stage.stage),
      stage.factor,
      stage.factor_low,
      stage.factor_high,
      coats_words(stage.coats));
}

std::string learned_words(const LearnedPaces& learned) {
  std::string all;
  for (const auto& [mechanism, coats] : learned.paces.coats()) {
    all +=
        fmt::format("{}{} ({})", all.empty() ? "" : ", ", name_of(mechanism), coats_words(coats));
  }
  return all.empty() ? ""
                     : fmt::format(
                           "Drying goes by this shop's own touch tests: {}. --explain has "
                           "the label's ranges beside, --as-labelled sets the tests aside.",
                           all);
}

}  // namespace coatwright
