#include "engine/model.h"

#include "model/body.h"

namespace engine {

Model::Model(std::unique_ptr<Body> body) : body_(std::move(body)) {}
Model::~Model() = default;

const std::string& Model::name() const { return body_->name; }
const std::string& Model::namespace_name() const { return body_->namespace_name; }
const Errors& Model::warnings() const { return body_->warnings; }
const std::vector<ElementView>& Model::elements() const { return body_->views; }
const std::vector<TableView>& Model::tables() const { return body_->tables; }

std::optional<std::uint32_t> Model::find(std::string_view name, ElementView::Kind kind) const {
  const auto found = body_->index.find({kind, std::string(name)});
  if (found == body_->index.end()) return std::nullopt;
  return found->second;
}

std::span<const Decimal> numeric_literals(const Model& model) { return model.body().codes.numbers; }

}  // namespace engine
