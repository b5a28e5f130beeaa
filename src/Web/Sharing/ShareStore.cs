using KittingBee.Web.Storage;

namespace KittingBee.Web.Sharing;

/// <summary>What is remembered of sharing between two starts.</summary>
public sealed record ShareSetting
{
    /// <summary>Empty until a password is set.</summary>
    public string PasswordHash { get; init; } = "";

    public bool Https { get; init; }
}

/// <summary>A class's join code.</summary>
public sealed record JoinCode
{
    public long ClassId { get; init; }

    public string ClassTitle { get; init; } = "";

    /// <summary>For typing.</summary>
    public string Code { get; init; } = "";

    /// <summary>For following as a link.</summary>
    public string Link { get; init; } = "";

    public string ExpiresAt { get; init; } = "";
}

/// <summary>A device that signed in, as it is stored.</summary>
public sealed record StoredDevice
{
    public long Id { get; init; }

    public string TokenHash { get; init; } = "";

    public string Role { get; init; } = "";

    public long? ClassId { get; init; }

    public string Name { get; init; } = "";

    public string SignedInAt { get; init; } = "";

    public string SeenAt { get; init; } = "";

    public string EndsAt { get; init; } = "";
}

/// <summary>Stores the password, the join codes and the devices.</summary>
public sealed class ShareStore(Database database)
{
    private const string SelectSetting = "SELECT password_hash AS PasswordHash, https FROM share_setting WHERE id = 1";

    private const string KeepPassword = "INSERT INTO share_setting (id, password_hash) VALUES (1, @hash) ON CONFLICT (id) DO UPDATE SET password_hash = @hash";

    private const string KeepHttps = "INSERT INTO share_setting (id, https) VALUES (1, @https) ON CONFLICT (id) DO UPDATE SET https = @https";

    private const string SelectJoins = """
        SELECT j.class_id AS ClassId, c.title AS ClassTitle, j.code, j.link, j.expires_at AS ExpiresAt
        FROM share_join j JOIN class c ON c.id = j.class_id AND c.deleted_at IS NULL
        WHERE j.expires_at > @Now
        """;

    private const string KeepJoin = """
        INSERT INTO share_join (class_id, code, link, expires_at) SELECT id, @Code, @Link, @ExpiresAt FROM class WHERE id = @ClassId AND deleted_at IS NULL
        ON CONFLICT (class_id) DO UPDATE SET code = @Code, link = @Link, expires_at = @ExpiresAt
        """;

    private const string SelectDevices = """
        SELECT id, token_hash AS TokenHash, role, class_id AS ClassId, name, signed_in_at AS SignedInAt, seen_at AS SeenAt, ends_at AS EndsAt FROM share_device
        """;

    private const string InsertDevice = """
        INSERT INTO share_device (token_hash, role, class_id, name, signed_in_at, seen_at, ends_at)
        VALUES (@TokenHash, @Role, @ClassId, @Name, @SignedInAt, @SeenAt, @EndsAt) RETURNING id
        """;

    public ShareSetting Setting() => database.Read(session => session.One<ShareSetting>(SelectSetting)) ?? new ShareSetting();

    public Task KeepPasswordHash(string hash) => database.Write(session => session.Run(KeepPassword, new { hash }));

    public Task KeepHttpsChoice(bool https) => database.Write(session => session.Run(KeepHttps, new { https }));

    /// <summary>Join codes that still open, by class.</summary>
    public IReadOnlyList<JoinCode> Joins() => database.Read(session => session.List<JoinCode>(SelectJoins, new { session.Now }));

    /// <summary>Puts a code in place of the class's old one; false where there is no such class.</summary>
    public async Task<bool> KeepJoinCode(JoinCode join) => await database.Write(session => session.Run(KeepJoin, join)) == 1;

    public Task<int> DropJoinCode(long classId) => database.Write(session => session.Run("DELETE FROM share_join WHERE class_id = @classId", new { classId }));

    public Task<int> DropJoinCodes() => database.Write(session => session.Run("DELETE FROM share_join"));

    public IReadOnlyList<StoredDevice> Devices() => database.Read(session => session.List<StoredDevice>(SelectDevices));

    public Task<long> AddDevice(StoredDevice device) => database.Write(session => session.Get<long>(InsertDevice, device));

    public Task DropDevices(IReadOnlyCollection<long> ids) => database.Write(session => session.Run("DELETE FROM share_device WHERE id IN @ids", new { ids }));

    public Task KeepSeen(IReadOnlyCollection<(long Id, string SeenAt)> seen) => database.Write(session =>
        seen.Sum(device => session.Run("UPDATE share_device SET seen_at = @SeenAt WHERE id = @Id", new { device.Id, device.SeenAt })));
}
