#include "recipe/defect_words.h"

#include <array>
#include <string>

#include <fmt/format.h>

#include "base/loose_match.h"

namespace coatwright {
namespace {

constexpr DefectWord kGood = {kGoodOutcome, "it came out well"};

constexpr std::array<DefectWord, 26> kDefects = {{
    {"blush", "a white haze at the surface"},
    {"cloudy", "a haze deep in the film"},
    {"bloom", "a greasy haze that comes back when it is wiped off"},
    {"fisheye", "round craters that the film shrank away from"},
    {"orange-peel", "a pebbled surface"},
    {"runs", "runs, sags or curtains"},
    {"pinholes", "fine holes in the film"},
    {"bubbles", "bubbles, or craters where bubbles broke"},
    {"dry-spray", "a rough surface of droplets that dried in the air"},
    {"dust", "specks of dust in the film"},
    {"wrinkling", "wrinkles or folds in the film"},
    {"lifting", "the coat beneath swelled or came up"},
    {"tacky", "it stays tacky"},
    {"print", "marks of what lay on it or was pressed against it"},
    {"peeling", "a coat comes off the coat beneath"},
    {"flaking", "the finish comes off the wood"},
    {"cold-check", "fine cracks across the grain"},
    {"cracking", "cracks along the grain or at joints"},
    {"crazing", "a net of fine cracks"},
    {"yellowing", "it turned yellow or amber"},
    {"blotching", "stain or colour came out uneven"},
    {"bleed-back", "oil came back out of the pores"},
    {"tannin-bleed", "colour of the wood came up through the coat"},
    {"black-spots", "black or blue spots where iron met the wood"},
    {"raised-grain", "raised fibres make it rough"},
    {"witness-lines", "lines where a coat was rubbed through"},
}};

/// Nothing where no defect has the word; `known` then holds all of them.
const DefectWord* find_defect(std::string_view text, std::string& known) {
  for (const DefectWord& defect : kDefects) {
    if (matches_loosely(defect.word, text)) {
      return &defect;
    }
    known += fmt::format("{}{}", known.empty() ? "" : ", ", defect.word);
  }
  return nullptr;
}

}  // namespace

std::span<const DefectWord> defect_words() {
  return kDefects;
}

Result<DefectWord> defect_named(std::string_view text) {
  std::string known;
  if (const DefectWord* defect = find_defect(text, known)) {
    return *defect;
  }
  return fail(ErrorCode::kUsage,
              fmt::format("there is no defect '{}'; say one of: {}", text, known));
}

Result<DefectWord> outcome_named(std::string_view text) {
  if (matches_loosely(kGoodOutcome, text)) {
    return kGood;
  }
  std::string known;
  if (const DefectWord* defect = find_defect(text, known)) {
    return *defect;
  }
  return fail(
      ErrorCode::kUsage,
      fmt::format(
          "'{}' is no outcome; say {}, or what is wrong with it: {}", text, kGoodOutcome, known));
}

}  // namespace coatwright
