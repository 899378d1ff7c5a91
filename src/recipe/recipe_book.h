#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/embedded_file.h"
#include "base/result.h"
#include "recipe/aftercare.h"
#include "recipe/application.h"
#include "recipe/defect.h"
#include "recipe/glue.h"
#include "recipe/paced_product.h"
#include "recipe/piece_surface.h"
#include "recipe/product.h"
#include "recipe/safety_statement.h"
#include "recipe/sanding_table.h"
#include "recipe/schedule.h"
#include "recipe/substance.h"
#include "recipe/tables.h"

namespace coatwright {

/// The recipes: those built into the program, and a shop's own folder that adds to and overrules
/// them. A file is read when it is first asked for. References stay valid as long as the book.
class RecipeBook {
 public:
  /// @param own_folder the shop's own recipes (with products/ and schedules/); need not exist.
  explicit RecipeBook(std::optional<std::filesystem::path> own_folder = std::nullopt);
  ~RecipeBook();
  RecipeBook(RecipeBook&&) noexcept;
  RecipeBook& operator=(RecipeBook&&) noexcept;

  /// From here on products and pairs dry as the shop has learned. Once, before a product is asked
  /// for: those handed out stay as they were.
  void learn(LearnedPaces learned);
  [[nodiscard]] const LearnedPaces& learned() const;

  /// Errors: kNotFound naming the nearest names; kInputFile with file, line and key.
  [[nodiscard]] Result<const Product*> product(const std::string& name) const;
  /// The same as its recipe has it, whatever the shop has learned.
  [[nodiscard]] Result<const Product*> product_as_labelled(const std::string& name) const;
  /// Tells the revisions of a product's file apart. Errors: as product_text().
  [[nodiscard]] Result<std::string> revision(const std::string& name) const;
  /// The text of a product's file, as the file is now. Errors: as product(), without reading it.
  [[nodiscard]] Result<std::string> product_text(const std::string& name) const;
  /// Whether the product's file is in the shop's own folder.
  [[nodiscard]] bool is_own_product(const std::string& name) const;
  /// The shop's own recipes, where it has a folder; it need not exist.
  [[nodiscard]] const std::optional<std::filesystem::path>& own_folder() const;
  [[nodiscard]] Result<const Schedule*> schedule(const std::string& name) const;
  /// A product as a finish that a piece came in with: all of its stages and windows are over.
  /// Errors: as product().
  [[nodiscard]] Result<const Product*> finish_on_piece(const std::string& name) const;
  /// A schedule made concrete for the wood, how it was left, and what lies on it: every step
  /// applies, and every grit is there. Errors: as schedule(); kOutOfRange, with what would work
  /// instead, where the wood does not bear the finish.
  [[nodiscard]] Result<const Schedule*> schedule_for(const std::string& name,
                                                     const PieceSurface& surface) const;
  [[nodiscard]] Result<const Species*> species(const std::string& name) const;
  [[nodiscard]] Result<const WorkingTimes*> working_times() const;
  /// What woods are sanded to.
  [[nodiscard]] Result<const SandingTable*> sanding() const;
  /// How products are put on and bought.
  [[nodiscard]] Result<const Application*> application() const;
  /// The glues, by recipe name.
  [[nodiscard]] Result<const Glues*> glues() const;
  /// One of them. Errors: kNotFound naming the nearest names.
  [[nodiscard]] Result<const Glue*> glue(const std::string& name) const;
  /// What evaporates from products, by name: those built in, and the shop's own substances.toml,
  /// which adds to them and overrules them one by one.
  [[nodiscard]] Result<const Substances*> substances() const;
  /// All that the safety sheet may say, in the order of the file.
  [[nodiscard]] Result<const SafetyTexts*> safety_texts() const;
  /// What the person who receives a piece is told, in the order of the file.
  [[nodiscard]] Result<const Aftercare*> aftercare() const;
  /// The defects of finishes, in the order of the file.
  [[nodiscard]] Result<const Defects*> defects() const;
  /// One of them. Errors: kNotFound listing all of their names, the nearest first.
  [[nodiscard]] Result<const Defect*> defect(const std::string& name) const;
  /// What `over` on top of `under` needs: the compatibility table's rule, or for a product over
  /// itself its own recoat intervals. Where `under` was made from a class, the table's hours are
  /// fitted to its own recoat stage. Errors: kNotFound when no rule is known for the pair.
  [[nodiscard]] Result<PairRule> pair(const Product& under, const Product& over) const;

  [[nodiscard]] std::vector<std::string> product_names() const;
  [[nodiscard]] std::vector<std::string> schedule_names() const;
  [[nodiscard]] Result<std::vector<std::string>> species_names() const;

  /// Reads one file as a product or schedule without taking it into the book.
  /// @param label the name shown in errors. @param substances those of a book that outlives the
  /// product; null: what evaporates from it is not looked up. Errors: kInputFile with file, line,
  /// key, value, allowed.
  [[nodiscard]] static Result<Product> read_product(std::string_view text,
                                                    const std::string& label,
                                                    const Substances* substances = nullptr);
  [[nodiscard]] static Result<Schedule> read_schedule(std::string_view text,
                                                      const std::string& label);

 private:
  /// A product as its own file has it.
  [[nodiscard]] Result<Product*> product_of_file(const std::string& name) const;
  /// The vapour of the nearest product in its chain of `made_from` that has one; null: none has.
  [[nodiscard]] const Vapour* vapour_of_origin(const Product& product) const;
  /// The class at the end of a product's chain of `made_from`; null: it is a class itself.
  [[nodiscard]] Result<const Product*> class_of(const Product& product) const;

  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace coatwright
