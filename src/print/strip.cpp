#include "print/strip.h"

#include <algorithm>

namespace coatwright {
namespace {

/// The height of so many strips from one on, spaces between them included.
double height_of(const std::vector<Strip>& strips, std::size_t first, std::size_t count) {
  double height = 0;
  for (std::size_t i = first; i < std::min(first + count, strips.size()); ++i) {
    height += strips[i].height + (i > first ? strips[i].space : 0.0);
  }
  return height;
}

/// How many strips, from one on, are to stand on one page.
std::size_t chain_from(const std::vector<Strip>& strips, std::size_t first) {
  std::size_t count = 1;
  while (first + count < strips.size() && strips[first + count - 1].with_next &&
         !strips[first + count].new_page) {
    ++count;
  }
  return count;
}

/// The height that must be free for a strip to stand on the page that is begun.
double height_needed(const std::vector<Strip>& strips, std::size_t at, double page) {
  constexpr std::size_t kAtLeast = 4;  // a heading, a line, the heads of a table, its first row
  const std::size_t chain = chain_from(strips, at);
  const double whole = height_of(strips, at, chain);
  const double begin = height_of(strips, at, std::min(chain, kAtLeast));
  if (whole <= page) {
    return whole;
  }
  return begin <= page ? begin : strips[at].height;
}

}  // namespace

std::vector<PrintedPage> pages_of(const std::vector<Strip>& strips, double height) {
  std::vector<PrintedPage> pages(1);
  double y = 0;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const Strip& strip = strips[i];
    const bool begins = pages.back().empty();
    const bool fits = y + strip.space + height_needed(strips, i, height) <= height;
    if (!begins && (strip.new_page || !fits)) {
      pages.emplace_back();
      y = 0;
    }
    if (pages.back().empty() && strip.head != nullptr) {
      pages.back().push_back({strip.head.get(), 0});
      y = strip.head->height;
    } else if (!pages.back().empty()) {
      y += strip.space;
    }
    pages.back().push_back({&strip, y});
    y += strip.height;
  }
  return pages;
}

}  // namespace coatwright
