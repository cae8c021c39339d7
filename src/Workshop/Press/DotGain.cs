using Coldpeel.Craft.Artwork;

namespace Coldpeel.Workshop.Press;

/// <summary>What a workshop found out about its tints with a step wedge.</summary>
/// <param name="N">The factor of Yule and Nielsen that the readings were reckoned with; 1 is Murray and Davies.</param>
/// <param name="Curve">What each asked tint printed as.</param>
/// <param name="Source">Whose wedge, and when.</param>
public sealed record DotGain(double N, ToneCurve Curve, string Source);
