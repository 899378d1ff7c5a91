#include "cli/can_age.h"

#include <chrono>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

Time months_after(Time from, double months) {
  constexpr double kSecondsPerMonth = 30.0 * 24.0 * 3600.0;
  return from + std::chrono::seconds(std::llround(months * kSecondsPerMonth));
}

std::string show_months(double months) {
  return fmt::format("{:g} {}", months, months == 1.0 ? "month" : "months");
}

}  // namespace

std::optional<UseBy> use_by(const Can& can, const Product& product) {
  std::optional<UseBy> found;
  if (const auto& opened = product.storage.opened_months) {
    found = UseBy{months_after(can.opened_at, opened->value),
                  opened->source,
                  show_months(opened->value) + " once opened"};
  }
  const auto& shelf = product.storage.shelf_months;
  if (can.made_at && shelf) {
    const Time at = months_after(*can.made_at, shelf->value);
    if (!found || at < found->at) {
      found = UseBy{at, shelf->source, show_months(shelf->value) + " from when it was made"};
    }
  }
  return found;
}

Result<std::string> caution_on_cans(const Store& store,
                                    const Product& product,
                                    const std::string& batch,
                                    Time now) {
  const auto cans = store.cans();
  if (!cans) {
    return pass_on(cans.error());
  }
  std::string numbers;
  for (const Can& can : *cans) {
    if (can.product != product.name || (!batch.empty() && can.batch != batch)) {
      continue;
    }
    const auto until = use_by(can, product);
    if (!until || now <= until->at) {
      return "";
    }
    numbers += (numbers.empty() ? "" : ", ") + fmt::format("{}", can.number);
  }
  return numbers.empty()
             ? ""
             : fmt::format("Past its time: can {} of {}. {}", numbers, product.name, kTestDrop);
}

}  // namespace coatwright
