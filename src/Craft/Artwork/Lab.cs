namespace Coldpeel.Craft.Artwork;

/// <summary>A colour in CIELAB under the white D65.</summary>
/// <param name="L">Lightness L*, 0 black to 100 white.</param>
/// <param name="A">a*, green (negative) to red.</param>
/// <param name="B">b*, blue (negative) to yellow.</param>
public readonly record struct Lab(double L, double A, double B);
