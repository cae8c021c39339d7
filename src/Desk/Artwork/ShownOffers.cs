namespace Coldpeel.Desk.Artwork;

/// <summary>The last few offers, so that page, picture and taking need one reckoning and not three.</summary>
internal sealed class ShownOffers
{
    private const int Most = 6;

    private readonly Lock _door = new();
    private readonly LinkedList<(string Key, ShownMends Offer)> _last = [];

    public ShownMends? Find(string key)
    {
        lock (_door)
        {
            return _last.FirstOrDefault(o => o.Key == key).Offer;
        }
    }

    public void Keep(string key, ShownMends offer)
    {
        lock (_door)
        {
            _last.AddFirst((key, offer));
            if (_last.Count > Most)
            {
                _last.RemoveLast();
            }
        }
    }
}
