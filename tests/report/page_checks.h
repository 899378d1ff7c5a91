#pragma once

#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "report/wrap.h"
#include "sample_plan.h"

namespace sample {

/// All plans by hand, by name.
inline std::vector<std::pair<std::string, Plan>> all_plans() {
  return {{"fits", plan()},
          {"late", late_plan()},
          {"incomplete", incomplete_plan()},
          {"long", long_plan()},
          {"cold", cold_plan()},
          {"empty", Plan{}}};
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

inline std::size_t times_in(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) {
    ++count;
  }
  return count;
}

/// The text with each run of blanks and line breaks made one blank, to look for wrapped words.
inline std::string unwrapped(const std::string& text) {
  std::istringstream stream(text);
  std::string all;
  for (std::string word; stream >> word;) {
    all += (all.empty() ? "" : " ") + word;
  }
  return all;
}

/// What holds for every page: its width, and no figure that is not one.
inline void check_page(const std::string& page) {
  for (const std::string& line : lines_of(page)) {
    INFO(line);
    CHECK(columns_of(line) <= kPageWidth);
    CHECK((line.empty() || line.back() != ' '));
    CHECK(line.find('\t') == std::string::npos);
    CHECK(line.find("nan") == std::string::npos);
    CHECK(line.find("inf") == std::string::npos);
    CHECK(line.find("-0.0 ") == std::string::npos);
    CHECK(line.find("-0 ") == std::string::npos);
    for (const std::string word : {" safe ", "Safe", "safely", " safe.", "safe;"}) {
      CHECK(line.find(word) == std::string::npos);
    }
  }
  CHECK_FALSE(page.empty());
  CHECK(page.back() == '\n');
}

}  // namespace sample
