#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_book.h"
#include "safety/safety_sheet.h"

/// The built-in products and statements, for tests of the safety sheet.
namespace coatwright::test {

inline const RecipeBook& book() {
  static const RecipeBook kBook;
  return kBook;
}

inline const SafetyTexts& texts() {
  const auto all = book().safety_texts();
  if (!all) {
    FAIL(all.error().text());
  }
  return **all;
}

inline const std::vector<SafetyStatement>& statements() {
  return texts().statements;
}

inline const Product& product(const std::string& name) {
  const auto found = book().product(name);
  if (!found) {
    FAIL(found.error().text());
  }
  return **found;
}

/// A product of no hazard at all, to which a test gives its own.
inline Product bare_product(const std::string& name, const std::string& carrier) {
  Product product;
  product.name = name;
  product.title = name;
  product.carrier = carrier;
  return product;
}

/// Two-part finishes, of which no recipe of ours exists yet.
inline Product two_part_urethane() {
  Product product = bare_product("two-part-urethane", "butyl acetate");
  product.hazards.flammable = true;
  product.hazards.sprayed_mist = true;
  product.hazards.isocyanates = true;
  product.hazards.catalysed = true;
  return product;
}

inline Product acid_cured() {
  Product product = bare_product("acid-cured", "butyl acetate");
  product.hazards.flammable = true;
  product.hazards.sprayed_mist = true;
  product.hazards.formaldehyde = true;
  product.hazards.catalysed = true;
  return product;
}

inline SafetySheet sheet_of(const std::vector<std::string>& names) {
  std::vector<const Product*> products;
  for (const std::string& name : names) {
    products.push_back(&product(name));
  }
  return make_safety_sheet(products, texts());
}

inline std::set<SafetySection> sections_of(const SafetySheet& sheet) {
  std::set<SafetySection> sections;
  for (const SheetSection& section : sheet.sections) {
    sections.insert(section.section);
  }
  return sections;
}

inline std::set<std::string> texts_of(const SafetySheet& sheet) {
  std::set<std::string> texts;
  for (const SheetSection& section : sheet.sections) {
    for (const SheetStatement& entry : section.statements) {
      texts.insert(entry.statement->text);
    }
  }
  return texts;
}

}  // namespace coatwright::test
