#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/tables_reader.h"

/// The built-in compatibility files, as the tests ask for them.
namespace coatwright::test {

/// A layer, and how the optional list of readings calls it; empty: it does not have it.
struct Layer {
  std::string name;
  std::string listed_as;
};

inline constexpr const char* kOldFinish = "old-finish";  // goes over nothing

inline const std::vector<Layer>& layers() {
  static const std::vector<Layer> kLayers = {
      {"oil-stain", "oil_stain"},
      {"water-stain", "water_stain"},
      {"dye-stain", "dye_stain"},
      {"gel-stain", "gel_stain"},
      {"oil-grain-filler", "filler_oil"},
      {"water-grain-filler", "filler_water"},
      {"dewaxed-shellac", "shellac_dewaxed"},
      {"waxed-shellac", "shellac_waxed"},
      {"nitrocellulose-sealer", "sealer_nitro"},
      {"vinyl-sealer", "sealer_vinyl"},
      {"nitrocellulose-lacquer", "lacquer_nitro"},
      {"precatalysed-lacquer", "lacquer_precat"},
      {"conversion-varnish", "conversion_varnish"},
      {"waterborne-clear", "waterborne_clear"},
      {"oil-varnish", "varnish_omu"},
      {"wiping-varnish", "wiping_varnish"},
      {"oil-varnish-blend", "oil_varnish_blend"},
      {"drying-oil", "drying_oil"},
      {"hardwax-oil", "hardwax_oil"},
      {"two-part-polyurethane", "pu_2k"},
      {"alkyd-enamel", "enamel_alkyd"},
      {"waterborne-enamel", "enamel_waterborne"},
      {"paste-wax", "paste_wax"},
      {"epoxy-sealer", "epoxy_seal"},
      {"wash-coat", ""},
      {"moisture-cure-polyurethane", ""},
      {kOldFinish, ""},
  };
  return kLayers;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

template <class T>
T value_of(Result<T> result) {
  if (!result) {
    FAIL(result.error().text());
  }
  return std::move(*result);
}

/// The built-in files, all pairs together.
inline const Compatibility& all_pairs() {
  static const Compatibility kPairs = [] {
    Compatibility all;
    for (const auto& entry :
         std::filesystem::directory_iterator(COATWRIGHT_SOURCE_DIR "/recipes/compatibility")) {
      all.merge(value_of(parse_compatibility(text_of(entry.path()), entry.path().string())));
    }
    return all;
  }();
  return kPairs;
}

inline const PairEntry& entry_of(const std::string& under, const std::string& over) {
  const auto found = all_pairs().find({under, over});
  if (found == all_pairs().end()) {
    FAIL("no pair " << over << " over " << under);
  }
  return found->second;
}

inline PairVerdict verdict_of(const std::string& under, const std::string& over) {
  return entry_of(under, over).rule.verdict;
}

inline bool keeps_apart(PairVerdict verdict) {
  return verdict == PairVerdict::kNever || verdict == PairVerdict::kBarrierFirst;
}

}  // namespace coatwright::test
