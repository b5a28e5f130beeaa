namespace KittingBee.Web.Documents.Labels;

/// <summary>A fabric on a label: told by its swatch, its letter and its name.</summary>
public sealed record LabelFabric(string Letter, string Name, string Colour);

/// <summary>What stands on one bag's label.</summary>
/// <param name="Number">The kit's number, large.</param>
/// <param name="Name">Whose it is.</param>
/// <param name="Code">The bag's short code, to be typed where none can be scanned.</param>
/// <param name="Colourway">Its colourway; null where none is chosen.</param>
/// <param name="Fabrics">Its fabrics by letter.</param>
/// <param name="Title">The class, where there is room for it.</param>
/// <param name="Address">What the QR code says.</param>
public sealed record Label(string Number, string Name, string Code, string? Colourway, IReadOnlyList<LabelFabric> Fabrics, string Title, string Address);
