#include "recipe/recipe_book.h"

#include <algorithm>
#include <fstream>
#include <functional>
#include <iterator>
#include <set>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "base/content_hash.h"
#include "recipe/aftercare_reader.h"
#include "recipe/application_reader.h"
#include "recipe/defects_reader.h"
#include "recipe/glue_reader.h"
#include "recipe/nearest_names.h"
#include "recipe/over_finish.h"
#include "recipe/own_pairs.h"
#include "recipe/product_reader.h"
#include "recipe/safety_reader.h"
#include "recipe/sanding_reader.h"
#include "recipe/schedule_reader.h"
#include "recipe/substance_reader.h"
#include "recipe/tables_reader.h"
#include "recipe/vapour_reader.h"

namespace coatwright {

extern const EmbeddedFile kRecipeFiles[];
extern const std::size_t kRecipeFiles_count;

namespace {

constexpr std::string_view kSuffix = ".toml";

/// A recipe file: built in, or in the shop's own folder.
struct RecipeFile {
  std::string label;
  std::string_view built_in;
  std::filesystem::path own;  ///< Empty for a built-in one.
};

using Files = std::map<std::string, RecipeFile>;

/// The built-in files below a folder ("products/"), by name.
Files built_in_files(std::string_view folder) {
  Files files;
  for (std::size_t i = 0; i < kRecipeFiles_count; ++i) {
    const EmbeddedFile& file = kRecipeFiles[i];
    if (file.path.starts_with(folder) && file.path.ends_with(kSuffix)) {
      std::string_view name = file.path.substr(folder.size());
      name.remove_suffix(kSuffix.size());
      files[std::string(name)] = {fmt::format("recipes/{}", file.path), file.text, {}};
    }
  }
  return files;
}

/// Adds the files of the shop's own folder; they overrule those of the same name.
std::error_code add_own_files(const std::filesystem::path& folder, Files& files) {
  std::error_code error;
  if (!std::filesystem::exists(folder, error)) {
    return error;
  }
  std::filesystem::directory_iterator entry(folder, error);
  for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
    const std::filesystem::path& path = entry->path();
    if (path.extension() == kSuffix) {
      files[path.stem().string()] = {path.string(), "", path};
    }
  }
  return error;
}

Result<std::string> text_of(const RecipeFile& file) {
  if (file.own.empty()) {
    return std::string(file.built_in);
  }
  std::ifstream stream(file.own, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  if (!stream.is_open() || stream.bad()) {
    return pass_on({ErrorCode::kInputFile, "the file cannot be read", {}}, file.label);
  }
  return text;
}

std::vector<std::string> names_of(const Files& files) {
  std::vector<std::string> names;
  for (const auto& [name, file] : files) {
    names.push_back(name);
  }
  return names;
}

/// One kind of recipe: its files, and those already read.
template <class T>
struct Shelf {
  using Parse = std::function<Result<T>(std::string_view, const std::string&, std::string_view)>;

  Files files;
  std::optional<Error> folder_error;  ///< The shop's own folder could not be listed.
  std::map<std::string, T> read;

  Shelf(std::string_view kind, const std::optional<std::filesystem::path>& own_folder)
      : files(built_in_files(fmt::format("{}/", kind))) {
    if (!own_folder) {
      return;
    }
    const std::filesystem::path folder = *own_folder / kind;
    if (const std::error_code error = add_own_files(folder, files)) {
      folder_error = Error{ErrorCode::kInputFile,
                           fmt::format("the folder cannot be read: {}", error.message()),
                           {folder.string()}};
    }
  }

  Result<const RecipeFile*> file_of(std::string_view what, const std::string& name) const {
    if (folder_error) {
      return tl::unexpected(*folder_error);
    }
    const auto file = files.find(name);
    if (file == files.end()) {
      return fail(ErrorCode::kNotFound, no_such_name(what, name, names_of(files)));
    }
    return &file->second;
  }

  Result<T*> find(std::string_view what, const std::string& name, const Parse& parse) {
    if (const auto known = read.find(name); known != read.end()) {
      return &known->second;
    }
    const Result<const RecipeFile*> file = file_of(what, name);
    if (!file) {
      return tl::unexpected(file.error());
    }
    const Result<std::string> text = text_of(**file);
    if (!text) {
      return tl::unexpected(text.error());
    }
    Result<T> value = parse(*text, (*file)->label, name);
    if (!value) {
      return pass_on(std::move(value.error()));
    }
    return &read.emplace(name, std::move(*value)).first->second;
  }
};

/// Reads a built-in table when it is first asked for.
template <class T>
Result<const T*> table(std::optional<T>& kept,
                       std::string_view path,
                       Result<T> (*parse)(std::string_view, const std::string&)) {
  if (!kept) {
    const EmbeddedFile* end = kRecipeFiles + kRecipeFiles_count;
    const EmbeddedFile* file = std::find_if(
        kRecipeFiles, end, [path](const EmbeddedFile& known) { return known.path == path; });
    if (file == end) {
      return fail(ErrorCode::kFault, fmt::format("the table {} was not built in", path));
    }
    Result<T> value = parse(file->text, fmt::format("recipes/{}", path));
    if (!value) {
      return pass_on(std::move(value.error()));
    }
    kept = std::move(*value);
  }
  return &*kept;
}

/// The shop's own file of a table that it may add to; none where it has no such file.
std::optional<RecipeFile> own_file(const std::optional<std::filesystem::path>& folder,
                                   std::string_view path) {
  std::error_code ignored;  // what cannot be looked at is found out by reading it
  if (!folder || !std::filesystem::exists(*folder / path, ignored)) {
    return std::nullopt;
  }
  const std::filesystem::path own = *folder / path;
  return RecipeFile{own.string(), "", own};
}

/// What a product's own intervals come to in a word.
PairVerdict verdict_of(const std::vector<RecoatInterval>& intervals) {
  const auto any = [&intervals](RecoatCondition condition) {
    return std::any_of(intervals.begin(), intervals.end(), [condition](const auto& one) {
      return one.condition == condition;
    });
  };
  if (any(RecoatCondition::kNone)) {
    const bool closes = std::any_of(intervals.begin(), intervals.end(), [](const auto& one) {
      return one.condition == RecoatCondition::kNone && one.closes;
    });
    return closes ? PairVerdict::kWithinWindow : PairVerdict::kOk;
  }
  return any(RecoatCondition::kAbrade) ? PairVerdict::kAbradeFirst : PairVerdict::kNever;
}

/// A product over itself, from its own file.
Result<PairRule> rule_over_itself(const Product& product) {
  if (product.recoat.empty()) {
    return fail(ErrorCode::kNotFound,
                fmt::format("no rule is known for '{}' over itself", product.name));
  }
  PairRule rule;
  rule.under = product.name;
  rule.over = product.name;
  rule.intervals = product.recoat;
  rule.reason = product.recoat.front().reason;
  rule.source = product.recoat.front().source;
  rule.verdict = verdict_of(product.recoat);
  return rule;
}

/// One layer's list: every pair in it must be over the layer that names the file.
Result<Compatibility> parse_pairs_over(std::string_view text,
                                       const std::string& label,
                                       std::string_view under) {
  Result<Compatibility> pairs = parse_compatibility(text, label);
  if (!pairs) {
    return pairs;
  }
  for (const auto& [names, entry] : *pairs) {
    if (names.first != under) {
      Place place = entry.intervals.front().place;
      place.path = "pair.under";
      return tl::unexpected(place.error(
          fmt::format("found \"{}\"; allowed: \"{}\", as the file is named", names.first, under)));
    }
  }
  return pairs;
}

/// A pair's intervals as they are for a product under that may have been made from a class.
Result<std::vector<IntervalHours>> fitted(const std::vector<IntervalHours>& intervals,
                                          const Product& under,
                                          const Result<const Product*>& of_class) {
  if (!of_class) {
    return pass_on(of_class.error());
  }
  const DryingStage* own = under.stage(Stage::kRecoat);
  const DryingStage* usual = *of_class == nullptr ? nullptr : (*of_class)->stage(Stage::kRecoat);
  if (own == nullptr || usual == nullptr || own->timing.whole() == usual->timing.whole()) {
    return intervals;
  }
  return fitted_intervals(intervals, under, {usual->timing.whole(), own->timing.whole()});
}

/// The names of what may go over a product, for the message that a pair is not known.
std::string known_over(const Compatibility& pairs, const std::string& under) {
  std::vector<std::string> over;
  for (const auto& [names, entry] : pairs) {
    if (names.first == under) {
      over.push_back(names.second);
    }
  }
  return over.empty() ? "no other product" : fmt::format("{}", fmt::join(over, ", "));
}

}  // namespace

struct RecipeBook::State {
  explicit State(const std::optional<std::filesystem::path>& folder)
      : own_folder(folder),
        products("products", folder),
        schedules("schedules", folder),
        compatibility("compatibility", folder) {}

  std::optional<std::filesystem::path> own_folder;
  Shelf<Product> products;
  Shelf<Schedule> schedules;
  Shelf<Compatibility> compatibility;       ///< By the layer under.
  std::map<std::string, Schedule> adapted;  ///< By name and surface.
  std::map<std::string, Product> long_dry;  ///< By name.
  LearnedPaces learned;
  std::map<std::string, Product> paced;  ///< By name, at the learned paces.
  std::optional<SpeciesTable> species;
  std::optional<WorkingTimes> working_times;
  std::optional<SandingTable> sanding;
  std::optional<Application> application;
  std::optional<Glues> glues;
  std::optional<Substances> substances;      ///< Those built in.
  std::optional<Substances> all_substances;  ///< With the shop's own.
  std::optional<SafetyTexts> safety_texts;
  std::optional<Aftercare> aftercare;
  std::optional<Defects> defects;
};

RecipeBook::RecipeBook(std::optional<std::filesystem::path> own_folder)
    : state_(std::make_unique<State>(own_folder)) {}
RecipeBook::~RecipeBook() = default;
RecipeBook::RecipeBook(RecipeBook&&) noexcept = default;
RecipeBook& RecipeBook::operator=(RecipeBook&&) noexcept = default;

void RecipeBook::learn(LearnedPaces learned) {
  state_->learned = std::move(learned);
}

const LearnedPaces& RecipeBook::learned() const {
  return state_->learned;
}

Result<const Product*> RecipeBook::product(const std::string& name) const {
  const auto labelled = product_as_labelled(name);
  if (!labelled || state_->learned.paces.empty()) {
    return labelled;
  }
  const auto known = state_->paced.find(name);
  return known != state_->paced.end()
             ? &known->second
             : &state_->paced.emplace(name, paced(**labelled, state_->learned)).first->second;
}

Result<Product*> RecipeBook::product_of_file(const std::string& name) const {
  const auto known = substances();
  if (!known) {
    return pass_on(known.error());
  }
  const auto parse =
      [&known](std::string_view text, const std::string& label, std::string_view file_name) {
        return parse_product(text, label, file_name, *known);
      };
  return state_->products.find("product", name, parse);
}

const Vapour* RecipeBook::vapour_of_origin(const Product& product) const {
  const Product* at = &product;
  std::set<std::string> seen;  // a circle is class_of()'s to report
  while (!at->vapour && !at->made_from.empty() && seen.insert(at->name).second) {
    const auto next = product_of_file(at->made_from);
    if (!next) {
      return nullptr;
    }
    at = *next;
  }
  return at->vapour ? &*at->vapour : nullptr;
}

Result<const Product*> RecipeBook::product_as_labelled(const std::string& name) const {
  const auto product = product_of_file(name);
  if (!product || (*product)->vapour) {
    return product;
  }
  if (const Vapour* origin = vapour_of_origin(**product)) {
    (*product)->vapour = vapour_made_from(*origin, (*product)->film);
  }
  return product;
}

Result<std::string> RecipeBook::product_text(const std::string& name) const {
  const Result<const RecipeFile*> file = state_->products.file_of("product", name);
  if (!file) {
    return pass_on(file.error());
  }
  return text_of(**file);
}

bool RecipeBook::is_own_product(const std::string& name) const {
  const auto file = state_->products.files.find(name);
  return file != state_->products.files.end() && !file->second.own.empty();
}

const std::optional<std::filesystem::path>& RecipeBook::own_folder() const {
  return state_->own_folder;
}

Result<const Product*> RecipeBook::class_of(const Product& product) const {
  const Product* at = &product;
  std::set<std::string> seen;
  while (!at->made_from.empty()) {
    if (!seen.insert(at->name).second) {
      return fail(ErrorCode::kInputFile,
                  fmt::format("the products '{}' are each made_from the other; allowed: a class",
                              fmt::join(seen, "', '")));
    }
    const Result<const Product*> next = product_as_labelled(at->made_from);
    if (!next) {
      return pass_on(next.error(), fmt::format("made_from of the product '{}'", at->name));
    }
    at = *next;
  }
  return at == &product ? nullptr : at;
}

Result<std::string> RecipeBook::revision(const std::string& name) const {
  return product_text(name).map([](const std::string& text) { return content_hash(text); });
}

Result<const Schedule*> RecipeBook::schedule(const std::string& name) const {
  return state_->schedules.find("finishing schedule", name, &parse_schedule);
}

Result<const Product*> RecipeBook::finish_on_piece(const std::string& name) const {
  const auto fresh = product(name);
  if (!fresh) {
    return fresh;
  }
  return &state_->long_dry.try_emplace(name, long_dry(**fresh)).first->second;
}

Result<const Schedule*> RecipeBook::schedule_for(const std::string& name,
                                                 const PieceSurface& surface) const {
  const std::string key = fmt::format("{}|{}|{}|{}|{}",
                                      name,
                                      surface.species == nullptr ? "" : surface.species->name,
                                      name_of(surface.wood.left),
                                      surface.wood.grit,
                                      surface.over == nullptr ? "" : surface.over->name);
  if (const auto known = state_->adapted.find(key); known != state_->adapted.end()) {
    return &known->second;
  }
  const auto general = schedule(name);
  if (!general) {
    return general;
  }
  auto made = schedule_on(**general, surface, *this);
  if (!made) {
    return pass_on(std::move(made.error()));
  }
  return &state_->adapted.emplace(key, std::move(*made)).first->second;
}

Result<const Species*> RecipeBook::species(const std::string& name) const {
  Result<const SpeciesTable*> all = table(state_->species, "species.toml", &parse_species);
  if (!all) {
    return pass_on(std::move(all.error()));
  }
  const auto found = (*all)->find(name);
  if (found == (*all)->end()) {
    return fail(ErrorCode::kNotFound, no_such_name("wood", name, *species_names()));
  }
  return &found->second;
}

Result<const WorkingTimes*> RecipeBook::working_times() const {
  return table(state_->working_times, "working_times.toml", &parse_working_times);
}

Result<const SandingTable*> RecipeBook::sanding() const {
  return table(state_->sanding, "sanding.toml", &parse_sanding);
}

Result<const Application*> RecipeBook::application() const {
  return table(state_->application, "application.toml", &parse_application);
}

Result<const Glues*> RecipeBook::glues() const {
  return table(state_->glues, "glues.toml", &parse_glues);
}

Result<const Glue*> RecipeBook::glue(const std::string& name) const {
  Result<const Glues*> all = glues();
  if (!all) {
    return pass_on(std::move(all.error()));
  }
  const auto found = (*all)->find(name);
  if (found == (*all)->end()) {
    std::vector<std::string> names;
    for (const auto& [known, glue] : **all) {
      names.push_back(known);
    }
    return fail(ErrorCode::kNotFound, no_such_name("glue", name, names));
  }
  return &found->second;
}

Result<const Substances*> RecipeBook::substances() const {
  if (state_->all_substances) {
    return &*state_->all_substances;
  }
  const auto built_in = table(state_->substances, "substances.toml", &parse_substances);
  const auto file = own_file(state_->own_folder, "substances.toml");
  if (!built_in || !file) {
    return built_in;
  }
  const auto text = text_of(*file);
  auto own = text ? parse_substances(*text, file->label) : tl::unexpected(text.error());
  if (!own) {
    return pass_on(std::move(own.error()));
  }
  state_->all_substances = with_own(**built_in, std::move(*own));
  return &*state_->all_substances;
}

Result<const SafetyTexts*> RecipeBook::safety_texts() const {
  return table(state_->safety_texts, "safety.toml", &parse_safety_texts);
}

Result<const Aftercare*> RecipeBook::aftercare() const {
  return table(state_->aftercare, "aftercare.toml", &parse_aftercare);
}

Result<const Defects*> RecipeBook::defects() const {
  return table(state_->defects, "defects.toml", &parse_defects);
}

Result<const Defect*> RecipeBook::defect(const std::string& name) const {
  Result<const Defects*> all = defects();
  if (!all) {
    return pass_on(std::move(all.error()));
  }
  std::vector<std::string> names;
  for (const Defect& defect : **all) {
    if (defect.name == name) {
      return &defect;
    }
    names.push_back(defect.name);
  }
  const auto distance = [&name](const std::string& known) {
    return std::pair(known.find(name) == std::string::npos, edit_distance(name, known));
  };
  std::stable_sort(names.begin(), names.end(), [&](const auto& a, const auto& b) {
    return distance(a) < distance(b);
  });
  return fail(ErrorCode::kNotFound,
              fmt::format("there is no defect '{}'; known are, the nearest name first: {}",
                          name,
                          fmt::join(names, ", ")));
}

Result<PairRule> RecipeBook::pair(const Product& under, const Product& over) const {
  if (under.layer == over.layer) {
    return rule_over_itself(under);
  }
  Result<const Compatibility*> pairs =
      state_->compatibility.find("compatibility list", under.layer, &parse_pairs_over);
  if (!pairs && pairs.error().code == ErrorCode::kNotFound) {
    return fail(
        ErrorCode::kNotFound,
        fmt::format("no rule is known for '{}' over '{}': there is no file compatibility/{}.toml",
                    over.name,
                    under.name,
                    under.layer));
  }
  if (!pairs) {
    return pass_on(std::move(pairs.error()));
  }
  const auto found = (*pairs)->find({under.layer, over.layer});
  if (found == (*pairs)->end()) {
    return fail(ErrorCode::kNotFound,
                fmt::format("no rule is known for '{}' over '{}'; known over '{}': {}",
                            over.layer,
                            under.layer,
                            under.layer,
                            known_over(**pairs, under.layer)));
  }
  const std::optional<Product> kept =
      under.paced_by == nullptr ? std::nullopt : std::optional(as_labelled(under));
  const Product& labelled = kept ? *kept : under;
  const auto intervals = fitted(found->second.intervals, labelled, class_of(labelled));
  if (!intervals) {
    return pass_on(intervals.error());
  }
  PairRule rule = found->second.rule;
  for (const IntervalHours& hours : *intervals) {
    Result<RecoatInterval> interval =
        with_laws(hours, under.name, labelled.stages, under.abrade_grit);
    if (!interval) {
      return pass_on(std::move(interval.error()));
    }
    rule.intervals.push_back(under.paced_by == nullptr
                                 ? std::move(*interval)
                                 : paced(*interval, under.name, *under.paced_by));
  }
  return rule;
}

std::vector<std::string> RecipeBook::product_names() const {
  return names_of(state_->products.files);
}

std::vector<std::string> RecipeBook::schedule_names() const {
  return names_of(state_->schedules.files);
}

Result<std::vector<std::string>> RecipeBook::species_names() const {
  Result<const SpeciesTable*> all = table(state_->species, "species.toml", &parse_species);
  if (!all) {
    return pass_on(std::move(all.error()));
  }
  std::vector<std::string> names;
  for (const auto& [name, species] : **all) {
    names.push_back(name);
  }
  return names;
}

Result<Product> RecipeBook::read_product(std::string_view text,
                                         const std::string& label,
                                         const Substances* substances) {
  return parse_product(text, label, "", substances);
}

Result<Schedule> RecipeBook::read_schedule(std::string_view text, const std::string& label) {
  return parse_schedule(text, label);
}

}  // namespace coatwright
