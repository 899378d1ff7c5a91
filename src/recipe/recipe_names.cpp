#include "recipe/recipe_names.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

namespace coatwright {

bool is_recipe_name(std::string_view name) {
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !name.empty() && std::all_of(name.begin(), name.end(), allowed) && name.front() != '-' &&
         name.back() != '-' && name.find("--") == std::string_view::npos;
}

const std::vector<std::string_view>& known_grits() {
  static const std::vector<std::string_view> kGrits = {
      "P40",  "P50",  "P60",  "P80",  "P100", "P120", "P150",  "P180",  "P220",  "P240",  "P280",
      "P320", "P360", "P400", "P500", "P600", "P800", "P1000", "P1200", "P1500", "P2000", "P2500"};
  return kGrits;
}

int grit_number(std::string_view grit) {
  int number = 0;
  std::from_chars(grit.data() + 1, grit.data() + grit.size(), number);
  return number;
}

const NamedValues<Method>& known_methods() {
  static const NamedValues<Method> kKnown = {{name_of(Method::kWipe), Method::kWipe},
                                             {name_of(Method::kBrush), Method::kBrush},
                                             {name_of(Method::kPad), Method::kPad},
                                             {name_of(Method::kSpray), Method::kSpray}};
  return kKnown;
}

const std::vector<std::string_view>& known_grades() {
  static const std::vector<std::string_view> kKnown = {
      "read", "derived", "common practice", "from memory", "judgement"};
  return kKnown;
}

std::string read_recipe_name(TomlTable& table, std::string_view expected) {
  std::string name = table.text("name");
  if (!table.ok()) {
    return name;
  }
  if (!is_recipe_name(name)) {
    table.wrong("name", "lower-case letters and digits, words joined by single hyphens");
  } else if (!expected.empty() && name != expected) {
    table.wrong("name", fmt::format("\"{}\", as the file is named", expected));
  }
  return name;
}

}  // namespace coatwright
