#include "plan/step_texts.h"

#include <fmt/format.h>

namespace coatwright {
namespace {

// Source: [osha_1910_107] waste cans, [nfpa_tips_rags] drying flat; fire departments' water method.
constexpr const char* kRags =
    "Oily rags heat up by themselves and can start a fire: put them now into a metal container "
    "full "
    "of water with its lid on, or into a listed oily-waste can that is emptied every day, or "
    "spread "
    "them flat, one layer, outdoors, away from the building. Never in a heap, a bag or a bin.";
constexpr const char* kOilDust =
    "Dust of an oil finish can heat up by itself too: empty the sander's bag outdoors into a "
    "lidded "
    "metal can when you stop.";
// Source: [osha_1910_1200] what the statements say of flammable solvents.
constexpr const char* kWashing =
    "Solvent vapour ignites: no flame, pilot light, heater or unrated motor in the room, exhaust "
    "running, gloves on; lay the wet rags flat outdoors or put them into a lidded metal can.";
constexpr const char* kSandingDust = "Wear a dust mask and run the extraction while sanding.";
constexpr const char* kNitrocelluloseWaste =
    "Overspray, filters and rags with nitrocellulose burn violently when dry: keep them wet with "
    "water in a lidded metal can, apart from oily waste, and take them out every day.";

void add_species_cautions(const WorkItem& work, const Species& wood, StepTexts& texts) {
  const Product& product = *work.product;
  if (wood.blotches && product.kind == ProductKind::kStain) {
    texts.cautions.push_back(fmt::format(
        "{} takes stain unevenly: judge it on the sample board, with and without a thin "
        "wash coat, before the piece is touched.",
        wood.title));
  }
  if (wood.oily && product.oxidises) {
    texts.cautions.push_back(
        fmt::format("{} is oily and slows the cure: wipe it with solvent just before the coat, or "
                    "put dewaxed shellac between; the times here do not hold on it untested.",
                    wood.title));
  }
  if (wood.tannin && product.raises_grain) {
    texts.cautions.push_back(fmt::format(
        "{} is rich in tannin: no steel wool before or between water-based coats, it stains black.",
        wood.title));
  }
}

}  // namespace

StepTexts texts_of(const SessionPart& part,
                   const WorkItem& work,
                   const Species* species,
                   const Product* last_under) {
  StepTexts texts;
  if (!part.note.empty()) {
    texts.notes.push_back(part.note);
  }
  switch (part.kind) {
    case StepKind::kMix:
      if (work.step != nullptr && work.step->thinning) {
        texts.notes.push_back(fmt::format("With {:.0f} % {}; its label says how much it takes.",
                                          work.step->thinning->share * 100.0,
                                          work.step->thinning->thinner.solvent));
      }
      break;
    case StepKind::kApply:
      if (work.step != nullptr && !work.step->note.empty()) {
        texts.notes.push_back(work.step->note);
      }
      texts.cautions = work.product->hazards.cautions;
      if (species != nullptr) {
        add_species_cautions(work, *species, texts);
      }
      break;
    case StepKind::kRags:
      texts.cautions.emplace_back(kRags);
      break;
    case StepKind::kWash:
      texts.cautions.emplace_back(kWashing);
      break;
    case StepKind::kSand:
      texts.cautions.emplace_back(kSandingDust);
      break;
    case StepKind::kAbrade:
      texts.cautions.emplace_back(kSandingDust);
      if (last_under != nullptr && last_under->hazards.rags_self_heat) {
        texts.cautions.emplace_back(kOilDust);
      }
      if (last_under != nullptr && last_under->layer == kOldFinishLayer) {
        texts.cautions.insert(texts.cautions.end(),
                              last_under->hazards.cautions.begin(),
                              last_under->hazards.cautions.end());
      }
      break;
    case StepKind::kCleanGun:
      if (work.product->hazards.nitrocellulose) {
        texts.cautions.emplace_back(kNitrocelluloseWaste);
      }
      break;
    default:
      break;
  }
  return texts;
}

}  // namespace coatwright
