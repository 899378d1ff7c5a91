#include "safety/hazard_words.h"

#include <utility>

namespace coatwright {

std::vector<std::string> hazard_words(const Product& product, Method method) {
  const Hazards& hazards = product.hazards;
  const std::pair<bool, const char*> all[] = {
      {hazards.isocyanates, "isocyanates"},
      {hazards.formaldehyde, "formaldehyde"},
      {hazards.flammable, "flammable"},
      {hazards.rags_self_heat, "oily rags"},
      {hazards.nitrocellulose, "nitrocellulose"},
      {method == Method::kSpray, "spray mist"},  // of any product, waterborne too
      {hazards.catalysed, "hardener"}};
  std::vector<std::string> words;
  for (const auto& [applies, word] : all) {
    if (applies) {
      words.emplace_back(word);
    }
  }
  return words;
}

}  // namespace coatwright
