#include "cli/step_words.h"

#include <algorithm>
#include <sstream>

#include <fmt/format.h>

#include "plan/plan.h"
#include "recipe/nearest_names.h"

namespace coatwright {
namespace {

constexpr std::string_view kCoat = "apply";

std::vector<std::string> split_at_blanks(const std::vector<std::string>& words) {
  std::vector<std::string> parts;
  for (const std::string& word : words) {
    std::istringstream stream(word);
    for (std::string part; stream >> part;) {
      parts.push_back(part);
    }
  }
  return parts;
}

std::vector<std::string> kinds(bool coats_too) {
  std::vector<std::string> names;
  for (int i = 0; i <= static_cast<int>(StepKind::kDeliver); ++i) {
    const std::string_view name = name_of(static_cast<StepKind>(i));
    if (coats_too || name != kCoat) {
      names.emplace_back(name);
    }
  }
  return names;
}

/// "clean-gun" is what many type for "clean_gun".
std::string as_kind(std::string word) {
  std::replace(word.begin(), word.end(), '-', '_');
  return word;
}

bool is_number(std::string_view text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// "P150"; a FEPA grade is the letter and up to four digits.
bool is_grit(std::string_view word) {
  constexpr std::size_t kMostDigits = 4;
  return word.size() <= kMostDigits + 1 && word.starts_with('P') && is_number(word.substr(1));
}

bool has_grit(std::string_view kind) {
  return kind == "sand" || kind == "abrade" || kind == "raise_grain" || kind == "rub_out";
}

Result<void> add_grit(const std::string& grit, std::vector<NamedStep>& steps) {
  if (steps.empty() || !has_grit(steps.back().kind)) {
    return fail(ErrorCode::kUsage,
                fmt::format("the grit {} stands with sand, abrade, raise_grain or rub_out only, as "
                            "in: sand {}",
                            grit,
                            grit));
  }
  if (steps.back().grit.empty()) {
    steps.back().grit = grit;
  } else {
    steps.push_back({steps.back().kind, grit, {}});
  }
  return {};
}

Error no_such_step(const std::string& word, bool coats_too) {
  if (word == kCoat) {
    return {ErrorCode::kUsage, "coats are logged with `coatwright coat PIECE PRODUCT`", {}};
  }
  if (is_number(word) || is_grit(as_kind("P" + word.substr(1)))) {
    return {ErrorCode::kUsage, fmt::format("'{}' is not a step: write a grit as P150", word), {}};
  }
  return {ErrorCode::kUsage, no_such_name("step", word, kinds(coats_too)), {}};
}

}  // namespace

Result<std::vector<NamedStep>> parse_steps(const std::vector<std::string>& words,
                                           bool coats_too,
                                           const RecipeBook& book) {
  const auto known = kinds(coats_too);
  std::vector<NamedStep> steps;
  for (const std::string& word : split_at_blanks(words)) {
    const bool needs_product = !steps.empty() && steps.back().kind == kCoat;
    if (needs_product && steps.back().product.empty()) {
      if (const auto product = book.product(word); !product) {
        return pass_on(product.error());
      }
      steps.back().product = word;
    } else if (is_grit(word)) {
      if (const auto added = add_grit(word, steps); !added) {
        return pass_on(added.error());
      }
    } else if (std::find(known.begin(), known.end(), as_kind(word)) != known.end()) {
      steps.push_back({as_kind(word), {}, {}});
    } else {
      return pass_on(no_such_step(word, coats_too));
    }
  }
  if (steps.empty()) {
    return fail(ErrorCode::kUsage, "say which step, such as: sand P150");
  }
  if (steps.back().kind == kCoat && steps.back().product.empty()) {
    return fail(ErrorCode::kUsage, "say of which product the coat was left out: apply PRODUCT");
  }
  return steps;
}

}  // namespace coatwright
